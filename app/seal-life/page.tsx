import type { Metadata } from 'next';
import { SealLifePage } from '../_parts/seal-life/seal-life-page.tsx';

export const metadata: Metadata = { title: 'How long do seals last?' };

export default function SealLife() {
  return <SealLifePage />;
}
