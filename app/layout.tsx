import type { Metadata, Viewport } from 'next';
import type { ReactNode } from 'react';
import '@fontsource-variable/source-sans-3/wght.css';
import '@fontsource-variable/source-serif-4/wght.css';
import './tokens.css';
import './base.css';
import './frame.css';
import './scope.css';
import './finding.css';
import './comparisons.css';
import './records.css';
import './columns.css';
import './lives.css';
import './procedure.css';
import './brief.css';
import './methods.css';
import './first-run.css';
import './print.css';
import { Frame } from './_parts/frame/frame.tsx';

export const metadata: Metadata = {
  title: { default: 'Hubcause: why wheel ends fail early', template: '%s · Hubcause' },
  description:
    'Finds out why heavy-vehicle wheel ends fail early, from the records a fleet already keeps, inside the browser.',
};

export const viewport: Viewport = {
  themeColor: [
    { media: '(prefers-color-scheme: light)', color: '#fcfbf8' },
    { media: '(prefers-color-scheme: dark)', color: '#14181c' },
  ],
};

export default function Layout({ children }: { children: ReactNode }) {
  return (
    <html lang="en">
      <body>
        <Frame>{children}</Frame>
      </body>
    </html>
  );
}
