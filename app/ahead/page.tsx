import type { Metadata } from 'next';
import { AheadPage } from '../_parts/ahead/ahead-page.tsx';

export const metadata: Metadata = { title: 'What is coming?' };

export default function Ahead() {
  return <AheadPage />;
}
