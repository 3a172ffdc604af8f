import type { Metadata } from 'next';
import { FindingPage } from '../_parts/finding/finding-page.tsx';

export const metadata: Metadata = { title: 'How often do wheel ends fail?' };

export default function MeanMilesPage() {
  return <FindingPage question="mean-miles" />;
}
