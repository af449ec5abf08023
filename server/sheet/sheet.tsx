// The whole setup sheet, in the order of the job: a pure function of one Setup and the problems of its file.

import type { VNode } from 'preact';
import type { Setup } from '../../core/setup.ts';
import { showFor } from '../../core/show.ts';
import { ArrivalsPart } from './arrivalsPart.tsx';
import { BoundariesPart } from './boundariesPart.tsx';
import { CautionsPart, NotesPart, SignOffPart } from './closingParts.tsx';
import { CrossoverPart } from './crossoverPart.tsx';
import { DialInPart } from './dialInPart.tsx';
import { FindingsPart, type Problems } from './findingsPart.tsx';
import { Glance } from './glance.tsx';
import { LayoutPart } from './layoutPart.tsx';
import { LevelsPart } from './levelsPart.tsx';
import { LowEndPart } from './lowEnd/lowEndPart.tsx';
import { MeasuredPart } from './measured/measuredPart.tsx';
import { ModesPart } from './modesPart.tsx';
import { PowerPart } from './powerPart.tsx';
import { ListeningPart } from './recordListening.tsx';
import { RecordPart } from './recordPart.tsx';
import { RoomPart } from './roomPart.tsx';
import { WiringPart } from './wiring/wiringPart.tsx';

interface SheetProps {
  readonly setup: Setup;
  readonly problems: Problems;
  /** What a person calls the file, under the title. */
  readonly label: string;
}

export function Sheet({ setup, problems, label }: SheetProps): VNode {
  const view = { setup, show: showFor(setup.room.habits) };
  return (
    <main class="sheet">
      <header class="title">
        <p class="kind">Setup sheet</p>
        <h1 data-path="[]">{setup.room.name ?? 'Room without a name'}</h1>
        {label === '' ? null : <p class="file-name">{label}</p>}
      </header>
      <Hatches />
      <Glance {...view} problems={problems} />
      <RoomPart {...view} />
      <ArrivalsPart {...view} />
      <ModesPart {...view} />
      <BoundariesPart {...view} />
      <CrossoverPart {...view} />
      <LowEndPart {...view} />
      <LevelsPart {...view} />
      <WiringPart {...view} />
      <DialInPart {...view} />
      <PowerPart {...view} />
      <LayoutPart {...view} />
      <MeasuredPart {...view} />
      <FindingsPart {...view} problems={problems} />
      <NotesPart {...view} />
      <CautionsPart {...view} />
      <RecordPart {...view} />
      <ListeningPart {...view} />
      <SignOffPart {...view} />
    </main>
  );
}

/** Hatchings that the drawings share, so that areas differ by form too. */
function Hatches(): VNode {
  return (
    <svg class="hatches" width="0" height="0" aria-hidden="true">
      <defs>
        <pattern id="hatch" width="6" height="6" patternUnits="userSpaceOnUse">
          <path class="hatch-line" d="M-1 7 L7 -1 M-1 1 L1 -1 M5 7 L7 5" />
        </pattern>
        <pattern id="hatch-back" width="5" height="5" patternUnits="userSpaceOnUse">
          <path class="hatch-latency" d="M-1 -1 L6 6 M-1 4 L1 6 M4 -1 L6 1" />
        </pattern>
      </defs>
    </svg>
  );
}
