import type { Metadata } from 'next';
import { LivesPage } from '../_parts/lives/lives-page.tsx';

export const metadata: Metadata = { title: 'Which lives stand behind the numbers?' };

export default function Page() {
  return <LivesPage />;
}
