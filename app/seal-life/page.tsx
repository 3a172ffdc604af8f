import type { Metadata } from 'next';
import { FindingPage } from '../_parts/finding/finding-page.tsx';

export const metadata: Metadata = { title: 'How long do seals last?' };

export default function SealLifePage() {
  return <FindingPage question="seal-life" />;
}
