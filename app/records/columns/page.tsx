import type { Metadata } from 'next';
import { ColumnsPage } from '../../_parts/columns/columns-page.tsx';

export const metadata: Metadata = { title: 'What do their columns mean?' };

export default function Page() {
  return <ColumnsPage />;
}
