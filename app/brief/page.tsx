import type { Metadata } from 'next';
import { BriefPage } from '../_parts/brief/brief-page.tsx';

export const metadata: Metadata = { title: 'The brief' };

export default function Brief() {
  return <BriefPage />;
}
