import type { Metadata } from 'next';
import { ProcedurePage } from '../_parts/procedure/procedure-page.tsx';

export const metadata: Metadata = { title: 'What must a wheel-end job meet?' };

export default function Page() {
  return <ProcedurePage />;
}
