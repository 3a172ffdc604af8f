import type { Metadata } from 'next';
import { FindingPage } from '../_parts/finding/finding-page.tsx';

export const metadata: Metadata = { title: 'Where do linings get soaked?' };

export default function ContaminationPage() {
  return <FindingPage question="contamination" />;
}
