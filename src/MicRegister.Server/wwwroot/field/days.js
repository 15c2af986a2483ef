// Local days of a site, by its campaign's offsets: the phone's own zone is never asked.

/** The local day of an instant, by the campaign's offsets, oldest first. */
export const localDay = (instant, offsets = []) => {
  const minutes = offsets.reduce((now, o) => Date.parse(o.fromUtc) <= instant ? o.minutes : now, offsets[0]?.minutes ?? 0);
  return new Date(instant + minutes * 60_000).toISOString().slice(0, 10);
};

/** The local day of a day or an instant as facts write it. */
export const dayOf = (at, offsets) => at.length > 10 ? localDay(Date.parse(at), offsets) : at;
