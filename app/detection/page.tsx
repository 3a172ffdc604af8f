import type { Metadata } from 'next';
import { DetectionPage } from '../_parts/detection/detection-page.tsx';

export const metadata: Metadata = { title: 'Are leaks found late?' };

export default function Detection() {
  return <DetectionPage />;
}
