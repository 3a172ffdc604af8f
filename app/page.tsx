import { AtAGlance } from './_parts/finding/at-a-glance.tsx';

export default function GlancePage() {
  return <AtAGlance />;
}
