import { holdsColumnMap } from '../../../lib/records/column-map/saved-maps.ts';
import { recordSets } from '../record-sets.ts';
import type { NamedFile } from '../record-desk.ts';
import { bringInMaps, type BroughtIn } from './bring-in-maps.ts';

/** What became of the column maps that were brought in last. Kept outside the page: a file may be let go over any. */
class MapsBroughtIn {
  private state: readonly BroughtIn[] = [];
  private readonly listeners = new Set<() => void>();

  readonly subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };
  readonly now = (): readonly BroughtIn[] => this.state;

  readonly take = async (files: readonly File[]): Promise<void> => {
    const said: BroughtIn[] = [];
    for (const file of files) said.push(await bringInMaps(file));
    this.say(said);
  };

  readonly dismiss = (): void => this.say([]);

  private say(said: readonly BroughtIn[]): void {
    this.state = said;
    for (const listener of this.listeners) listener();
  }
}

export const mapsBroughtIn = new MapsBroughtIn();

/** Opens files as records; where all of them are column maps, they are taken as those, and what is open stays. */
export async function openOrBringIn(files: readonly NamedFile[]): Promise<void> {
  const maps = await Promise.all(files.map(({ name, file }) => holdsColumnMap(name, file.size, () => file.text())));
  mapsBroughtIn.dismiss();
  if (maps.every(Boolean)) await mapsBroughtIn.take(files.map(({ file }) => file));
  else await recordSets.openFiles(files);
}
