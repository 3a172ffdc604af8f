import type { Metadata } from 'next';
import { RulesPage } from '../_parts/rules/rules-page.tsx';

export const metadata: Metadata = { title: 'Does the answer depend on a choice?' };

export default function Rules() {
  return <RulesPage />;
}
