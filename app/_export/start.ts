import { spawn } from 'node:child_process';
import { platform } from 'node:os';
import { buildExport } from './build-export.ts';
import { serveExport } from './serve-export.ts';

const openers: Partial<Record<NodeJS.Platform, readonly [string, ...string[]]>> = {
  darwin: ['open'],
  win32: ['cmd', '/c', 'start', ''],
};

/** Opens the system's browser; where there is none the address on the screen has to do. */
function openBrowser(url: string): void {
  const [command, ...parts] = openers[platform()] ?? ['xdg-open'];
  const opener = spawn(command, [...parts, url], { stdio: 'ignore', detached: true });
  opener.on('error', () => undefined);
  opener.unref();
}

const usualPort = 4173;
buildExport('out');
const served = await serveExport('out', '', usualPort).catch(() => serveExport('out'));
console.log(`\nHubcause is open at ${served.url} with the demo fleet, which is invented. Stop with Ctrl+C.`);
if (!process.argv.includes('--no-browser')) openBrowser(served.url);
