import type { Metadata } from 'next';
import { AfterChangePage } from '../_parts/after-change/after-change-page.tsx';

export const metadata: Metadata = { title: 'Did the change work?' };

export default function AfterChange() {
  return <AfterChangePage />;
}
