// A moment typed on the run's own clock, which need not be that of this machine.

interface ClockFieldProps {
  readonly label: string;
  readonly unixMs: number;
  readonly utcOffsetMinutes: number;
  readonly onChange: (unixMs: number) => void;
}

export function ClockField({ label, unixMs, utcOffsetMinutes, onChange }: ClockFieldProps) {
  return (
    <label class="field">
      {label}
      <input
        type="datetime-local"
        value={clockText(unixMs, utcOffsetMinutes)}
        onChange={(event) => {
          const typed = clockMs(event.currentTarget.value, utcOffsetMinutes);
          if (typed !== null) onChange(typed);
        }}
      />
    </label>
  );
}

/** "2026-06-04T07:15" */
export const clockText = (unixMs: number, utcOffsetMinutes: number) =>
  new Date(unixMs + utcOffsetMinutes * 60_000).toISOString().slice(0, 16);

/** null where it is no moment. */
export function clockMs(text: string, utcOffsetMinutes: number): number | null {
  const unixMs = Date.parse(`${text.slice(0, 16)}Z`) - utcOffsetMinutes * 60_000;
  return Number.isFinite(unixMs) ? unixMs : null;
}
