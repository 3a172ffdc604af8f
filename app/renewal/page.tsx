import type { Metadata } from 'next';
import { RenewalPage } from '../_parts/renewal/renewal-page.tsx';

export const metadata: Metadata = { title: 'When does planned renewal pay?' };

export default function Renewal() {
  return <RenewalPage />;
}
