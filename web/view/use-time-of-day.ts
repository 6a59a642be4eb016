/** The clock on the wall, as far as a plan needs it. */
import { useEffect, useState } from 'preact/hooks';

const CLOCK_EVERY_MS = 20_000;

/** Local time of day, s since midnight. */
export function useTimeOfDay_s(): number {
  const [now, setNow] = useState(() => new Date());
  useEffect(() => {
    const timer = setInterval(() => setNow(new Date()), CLOCK_EVERY_MS);
    return () => clearInterval(timer);
  }, []);
  return now.getHours() * 3600 + now.getMinutes() * 60 + now.getSeconds();
}
