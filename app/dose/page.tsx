import type { Metadata } from 'next';
import { DosePage } from '../_parts/dose/dose-page.tsx';

export const metadata: Metadata = { title: 'How much does the measured value matter?' };

export default function Dose() {
  return <DosePage />;
}
