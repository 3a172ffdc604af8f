import { ZipWriter } from '@zip.js/zip.js/lib/zip-core-writer.js';
import type { BriefFile } from './brief-files.ts';

/** A day for every member, so that the same files give the same archive. */
const lastModDate = new Date(Date.UTC(2000, 0, 1));

/** Files as one zip archive. */
export async function zipOfFiles(files: readonly BriefFile[]): Promise<Blob> {
  const { readable, writable } = new TransformStream<Uint8Array<ArrayBuffer>, Uint8Array<ArrayBuffer>>();
  const blob = new Response(readable, { headers: { 'content-type': 'application/zip' } }).blob();
  const writer = new ZipWriter(writable, { useWebWorkers: false, lastModDate });
  for (const { name, content } of files)
    await writer.add(name, new Blob([content as string | Uint8Array<ArrayBuffer>]).stream());
  await writer.close();
  return blob;
}
