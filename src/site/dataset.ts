import type { Column } from '../capture/index.ts';
import { definitionOf, type Figure } from '../figures/index.ts';
import { downloadOf } from '../journal/ids.ts';
import type { CaptureRecord, Journal, Log } from '../journal/types.ts';
import { fileAddress, pageAddress } from './address.ts';
import { fullAddress } from './canonical.ts';
import { inventedText } from './invented.ts';
import { amplifierTitle, dateText } from './names.ts';
import { unitText } from './unit-text.ts';

/**
 * A capture for search engines that gather data: what it is, who made it, its file with its hash, and what was measured.
 * Addresses are relative to the page where the site's own is not known.
 * @source schema.org, types Dataset, DataDownload and PropertyValue
 */
export function captureDataset(
  capture: CaptureRecord,
  log: Log,
  { settings }: Journal,
): Record<string, unknown> {
  const { id, data, file, sha256, bytes } = capture;
  const { author, licence, invented } = settings;
  return {
    '@context': 'https://schema.org',
    '@type': 'Dataset',
    name: data.title,
    description: describe(capture, log, invented),
    url: whole(pageAddress(id)),
    creator: { '@type': 'Person', name: author },
    ...(licence ? { license: licence.address } : {}),
    dateCreated: log.data.date,
    isAccessibleForFree: true,
    ...(log.data.tags.length > 0 ? { keywords: log.data.tags } : {}),
    isPartOf: whole(pageAddress(log.id)),
    measurementTechnique: whole(pageAddress('methods')),
    variableMeasured: [
      ...capture.capture.columns.map(columnVariable),
      ...capture.figures.flatMap(figureVariable),
    ],
    distribution: {
      '@type': 'DataDownload',
      contentUrl: whole(fileAddress(downloadOf(file))),
      encodingFormat: 'text/csv',
      contentSize: `${bytes} B`,
      sha256,
    },
  };
}

const whole = (address: string) => fullAddress(address) ?? address;

function describe({ data, kind }: CaptureRecord, log: Log, invented: boolean): string {
  const { amplifier, date, question } = log.data;
  const what = `A capture of ${amplifierTitle(amplifier)}, ${dateText(date)}: ${kind.replaceAll('-', ' ')}.`;
  return [
    data.why ?? data.title,
    what,
    `Taken for the log “${log.data.title}”: ${question}`,
    invented ? inventedText : '',
  ]
    .filter(Boolean)
    .join(' ');
}

const columnVariable = ({ name, quantity, unit }: Column) => ({
  '@type': 'PropertyValue',
  name,
  description: `Column of the file: ${quantity.replaceAll('-', ' ')}`,
  ...(unit === '' ? {} : { unitText: unit }),
});

/** A figure as a variable with its value and interval; one that does not exist is left to the page, which says why. */
function figureVariable({ id, value, low, high, unit, subject, provenance }: Figure) {
  if (value === null) return [];
  return {
    '@type': 'PropertyValue',
    propertyID: id,
    name: [definitionOf(id)?.name ?? id, subject].filter(Boolean).join(', '),
    value,
    ...(low === undefined || high === undefined ? {} : { minValue: low, maxValue: high }),
    unitText: unitText({ unit }),
    measurementTechnique: whole(pageAddress('methods', provenance.method)),
  };
}

/** A structure as the text of a data block: nothing in it can end the block. */
export function blockText(structure: Record<string, unknown>): string {
  return JSON.stringify(structure).replaceAll('<', '\\u003c');
}
