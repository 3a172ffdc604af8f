import type { Metadata } from 'next';
import { CausesPage } from '../_parts/causes/causes-page.tsx';

export const metadata: Metadata = { title: 'Which deviations go with shorter life?' };

export default function Causes() {
  return <CausesPage />;
}
