import type { Metadata } from 'next';
import { RecordsPage } from '../_parts/records/records-page.tsx';

export const metadata: Metadata = { title: 'Can the records be trusted?' };

export default function Page() {
  return <RecordsPage />;
}
