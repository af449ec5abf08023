// What is set below the plan: whether pressure is shown, what sounds, at which frequency.

import type { ComponentChildren, VNode } from 'preact';
import type { FieldMapRequest } from '../../../core/fieldFigures.ts';
import type { Show } from '../../../core/show.ts';

/** One thing to choose: a channel with all that it drives, or a source by itself. */
export interface Sounding {
  readonly text: string;
  readonly of: FieldMapRequest['of'];
}

interface PressureControlsProps {
  readonly isOn: boolean;
  readonly setOn: (isOn: boolean) => void;
  readonly soundings: readonly Sounding[];
  readonly chosen: number;
  readonly choose: (index: number) => void;
  readonly frequency_hz: number;
  readonly setFrequency: (frequency_hz: number) => void;
  readonly show: Show;
  /** Said beside the slider; null while no map is there. */
  readonly reading: string | null;
  readonly children: ComponentChildren;
}

const FROM_HZ = 20;
const TO_HZ = 200;
/** A step of the slider is a hundredth of an octave or so. */
const STEPS = 330;

function toPlace(frequency_hz: number): number {
  return Math.round((STEPS * Math.log(frequency_hz / FROM_HZ)) / Math.log(TO_HZ / FROM_HZ));
}

function toFrequency_hz(place: number): number {
  return FROM_HZ * (TO_HZ / FROM_HZ) ** (place / STEPS);
}

export function PressureControls(props: PressureControlsProps): VNode {
  const { isOn, setOn, soundings, chosen, choose, frequency_hz, setFrequency, show } = props;
  return (
    <div class="pressure-controls">
      <label>
        <input
          type="checkbox"
          checked={isOn}
          onInput={({ currentTarget }) => setOn(currentTarget.checked)}
        />
        {' Pressure over the plan'}
      </label>
      {isOn ? (
        <>
          <select
            aria-label="What sounds"
            value={String(chosen)}
            onChange={({ currentTarget }) => choose(Number(currentTarget.value))}
          >
            {soundings.map(({ text }, index) => (
              <option key={text} value={String(index)}>
                {text}
              </option>
            ))}
          </select>
          <input
            type="range"
            aria-label="Frequency"
            aria-valuetext={`${show.frequency(frequency_hz)}${props.reading === null ? '' : `, ${props.reading}`}`}
            min={0}
            max={STEPS}
            step={1}
            value={toPlace(frequency_hz)}
            onInput={({ currentTarget }) =>
              setFrequency(toFrequency_hz(Number(currentTarget.value)))
            }
          />
          <output>{show.frequency(frequency_hz)}</output>
          <span class="note">{props.reading ?? 'being worked out …'}</span>
          {props.children}
        </>
      ) : null}
    </div>
  );
}
