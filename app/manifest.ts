import type { MetadataRoute } from 'next';

export const dynamic = 'force-static';

/** By which browsers install the app. Addresses are relative to the manifest, so that any sub-path will do. */
export default function manifest(): MetadataRoute.Manifest {
  const icon = { sizes: 'any', type: 'image/svg+xml' } as const;
  return {
    name: 'Hubcause: why wheel ends fail early',
    short_name: 'Hubcause',
    description: 'Finds out why heavy-vehicle wheel ends fail early, from the records a fleet already keeps.',
    start_url: './',
    scope: './',
    display: 'standalone',
    background_color: '#fcfbf8',
    theme_color: '#fcfbf8',
    icons: [
      { src: 'icon.svg', ...icon, purpose: 'any' },
      { src: 'icon-maskable.svg', ...icon, purpose: 'maskable' },
    ],
  };
}
