import { currentJournal } from '../journal/current.ts';

const dates = new Intl.DateTimeFormat('en-GB', { dateStyle: 'long', timeZone: 'UTC' });

/** A calendar date in words: "7 February 2026". */
export function dateText(date: string): string {
  return dates.format(new Date(`${date}T00:00:00Z`));
}

/** An amplifier's title by its id. */
export function amplifierTitle(id: string): string {
  return currentJournal().amplifiers.find((amplifier) => amplifier.id === id)?.data.title ?? id;
}

/** A version's title by its id. */
export function versionTitle(id: string): string {
  return currentJournal().versions.find((version) => version.id === id)?.data.title ?? id;
}

/** The last part of an id, as it stands in addresses. */
export function slugOf(id: string): string {
  return id.slice(id.lastIndexOf('/') + 1);
}
