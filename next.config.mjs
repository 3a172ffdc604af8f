/** Static files only: the records never leave the browser, so there is nothing for a server to do. */
const basePath = process.env.HUBCAUSE_BASE_PATH ?? '';

/** @type {import('next').NextConfig} */
export default {
  output: 'export',
  ...(basePath === '' ? {} : { basePath }),
  // For the worker that keeps the app for opening without a network: it lies beside the pages.
  env: { HUBCAUSE_BASE_PATH: basePath },
  trailingSlash: true,
  reactStrictMode: true,
  poweredByHeader: false,
  // Pages fetched ahead stay good for the day: the app goes on working without a network.
  experimental: { staleTimes: { static: 86_400, dynamic: 86_400 } },
  images: { unoptimized: true },
  // `npm run check` types the whole tree at once, tests and command line included.
  // The build would otherwise write its own wishes into the root tsconfig.json.
  typescript: { ignoreBuildErrors: true, tsconfigPath: 'tests/config/tsconfig.next.json' },
};
