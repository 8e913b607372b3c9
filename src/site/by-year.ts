/** Records with a date of one year. */
export interface Year<Dated> {
  year: string;
  records: Dated[];
}

/** A list of as many is still looked through from end to end. */
const most = 40;

/** Records year by year, in their order; null for a list that is short, or all of one year. */
export function byYear<Dated extends { data: { date: string } }>(
  records: readonly Dated[],
): Year<Dated>[] | null {
  const years = Map.groupBy(records, ({ data }) => data.date.slice(0, 4));
  if (records.length <= most || years.size < 2) return null;
  return [...years].map(([year, ofYear]) => ({ year, records: ofYear }));
}
