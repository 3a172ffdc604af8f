import type { Drawer } from './drawer.ts';

export const drawerName = 'hubcause';
export const mapsFolder = 'maps';
export const briefFolder = 'brief';
/** What outlives the records that are kept. */
export const lastingFolders: readonly string[] = [mapsFolder, briefFolder];

/** The browser's own file system for this origin where it can write there, else its database. */
export async function openDrawer(name: string): Promise<Drawer> {
  const { openFileDrawer } = await import('./file-drawer.ts');
  const files = await openFileDrawer(name);
  if (files !== null) return files;
  const { openDatabaseDrawer } = await import('./database-drawer.ts');
  return openDatabaseDrawer(name);
}
