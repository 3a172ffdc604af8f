import type { Metadata } from 'next';
import { SavingsPage } from '../_parts/savings/savings-page.tsx';

export const metadata: Metadata = { title: 'What would fewer deviations save?' };

export default function Savings() {
  return <SavingsPage />;
}
