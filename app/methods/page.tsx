import type { Metadata } from 'next';
import { MethodsPage } from '../_parts/methods/methods-page.tsx';

export const metadata: Metadata = { title: 'Methods' };

export default function Methods() {
  return <MethodsPage />;
}
