import type { Metadata } from 'next';
import { ShopsPage } from '../_parts/shops/shops-page.tsx';

export const metadata: Metadata = { title: 'Is a shop really different?' };

export default function Shops() {
  return <ShopsPage />;
}
