import type { Metadata } from 'next';
import { RepeatsPage } from '../_parts/repeats/repeats-page.tsx';

export const metadata: Metadata = { title: 'Do repaired wheel ends fail again?' };

export default function Repeats() {
  return <RepeatsPage />;
}
