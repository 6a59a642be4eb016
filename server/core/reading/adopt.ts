/** Taking up a layout: from a header, from the configuration, or from an announcement. */
import { columnNamed, type Header } from '#protocol/plain-header.ts';
import { isSameAnnouncement, type Announcement } from './announcement.ts';
import { setTimeUnit } from './device-clock.ts';
import { layoutOfAnnouncement, layoutOfColumns, type Compiled } from './layout.ts';
import { notify, restart, type LayoutOrigin, type Reader } from './state.ts';

/** Uses these columns from now on, if anything can be read from them. */
export function adoptColumns(
  reader: Reader,
  header: Header,
  origin: Exclude<LayoutOrigin, 'announced'>,
): void {
  reader.columns = header.columns;
  adopt(reader, layoutOfColumns(header, reader.configuration), origin);
  if (reader.layout?.timeAt === null && reader.clock.mode === 'stream') {
    notify(reader, {
      code: 'no-time-column',
      message: 'There is no column time_s, so it is not known when the readings were taken.',
    });
    forgetLayout(reader);
  }
}

/** Uses these channels from now on, if they are not in use already. */
export function adoptAnnouncement(reader: Reader, announcement: Announcement): void {
  const isInUse = reader.layout?.grammar === 'stillmark';
  if (isInUse && isSameAnnouncement(reader.facts.announcement, announcement)) return;
  reader.facts.announcement = announcement;
  restart(reader);
  adopt(reader, layoutOfAnnouncement(announcement, reader.configuration), 'announced');
}

/** The configured columns, where there are any. */
export function adoptConfigured(reader: Reader): void {
  const { columns } = reader.configuration;
  if (columns.length === 0) return;
  adoptColumns(reader, { columns: columns.map(columnNamed), separator: null }, 'configured');
}

/** Compiles the layout in use again, after the configuration changed. */
export function recompile(reader: Reader): void {
  const { layoutOrigin, columns, layout, facts } = reader;
  if (layoutOrigin === 'header') {
    adoptColumns(reader, { columns, separator: layout?.separator ?? null }, 'header');
  } else if (layoutOrigin === 'announced' && facts.announcement !== null) {
    adopt(reader, layoutOfAnnouncement(facts.announcement, reader.configuration), 'announced');
  } else {
    forgetLayout(reader);
    adoptConfigured(reader);
  }
}

export function forgetLayout(reader: Reader): void {
  reader.layout = null;
  reader.layoutOrigin = null;
  reader.columns = [];
}

function adopt(reader: Reader, { layout, notices }: Compiled, origin: LayoutOrigin): void {
  reader.layout = layout;
  reader.layoutOrigin = origin;
  if (layout !== null) {
    setTimeUnit(reader.clock, layout.timeUnit);
    reader.unmapped = false;
    reader.connection.hasFitted = false;
    reader.connection.misfits = 0;
  }
  for (const notice of notices) notify(reader, notice);
}
