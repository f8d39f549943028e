import { writeBackup } from "../adapters/files/backup-file.ts";
import { timeOfDay, today as clockToday } from "../adapters/clock.ts";
import { backupName } from "./backup-name.ts";
import type { House } from "./house.ts";

/** Writes the backup into the person's files, notes that it was made, and gives its name. */
export async function makeBackup(house: House): Promise<string> {
  const photos = await house.photos.all();
  const pictures = photos.ok ? photos.value : [];
  const { text, entries } = await house.answers.backupText();
  const { blob, ending } = await writeBackup({ text, photos: pictures });
  const on = clockToday();
  const name = backupName(house.herd.name, on, ending);
  const url = URL.createObjectURL(blob);
  const link = document.createElement("a");
  link.href = url;
  link.download = name;
  link.click();
  URL.revokeObjectURL(url);
  const time = timeOfDay();
  await house.marks.setBackup({ on, time, entries, photos: pictures.map(({ id }) => id) });
  await house.refresh();
  return name;
}
