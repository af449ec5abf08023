// Section "Wiring": the signal's way, drawn from the file: sources at the left, loudspeakers at the right.

import { curveMonotoneX, line } from 'd3-shape';
import type { VNode } from 'preact';
import { useContext } from 'preact/hooks';
import { cableEndText } from '../../../core/rules/signal/cables.ts';
import type { Show } from '../../../core/show.ts';
import type { Cable } from '../../../schema/model/room.ts';
import { LiveContext } from '../live.ts';
import { round } from '../plan/frame.ts';
import { Fold, Section, Wide, WideTable } from '../section.tsx';
import { placeOf, ToSource, useReachable } from '../source.tsx';
import { TableHead } from '../tableHead.tsx';
import type { View } from '../view.ts';
import { counted, MISSING, shown, signed } from '../words.ts';
import { type NodeBox, type Wire, wiringScene } from './wiringScene.ts';

export function WiringPart({ setup, show }: View): VNode {
  const { wiring } = setup.room;
  return (
    <Section
      id="wiring"
      title="Wiring"
      brief={`${counted(wiring.length, 'connection')}, from the sources at the left to the loudspeakers at the right.`}
    >
      {wiring.length === 0 ? (
        <p class="missing">Nothing is wired in the file yet.</p>
      ) : (
        <>
          <WiringDrawing setup={setup} show={show} />
          <Fold id="wiring-table" summary="Every connection">
            <ConnectionTable setup={setup} show={show} />
          </Fold>
          <Fold id="wiring-paths" summary={`Every signal path (${setup.signalPaths.length})`}>
            <PathTable setup={setup} show={show} />
          </Fold>
          <Cables cables={setup.room.cables ?? []} show={show} />
        </>
      )}
    </Section>
  );
}

function WiringDrawing({ setup }: View): VNode {
  const { live } = useContext(LiveContext);
  const scene = wiringScene(setup.room);
  const margin = 1;
  return (
    <Wide label="Wiring, drawn">
      <svg
        class="drawing wiring"
        viewBox={`${-margin} ${-margin} ${round(scene.width + 2 * margin)} ${round(scene.height + 2 * margin)}`}
        width={round(scene.width)}
        height={round(scene.height)}
        role={live ? 'group' : 'img'}
        aria-label={`${counted(scene.nodes.length, 'device')} and ${counted(scene.wires.length, 'connection')}. The table gives every connection.`}
      >
        {scene.wires.map((wire) => (
          <WireMark key={wire.index} wire={wire} />
        ))}
        {scene.nodes.map((node) => (
          <NodeMark key={node.id} node={node} />
        ))}
      </svg>
    </Wide>
  );
}

function WireMark({ wire }: { readonly wire: Wire }): VNode {
  const points = wire.points.map(({ x, y }): [number, number] => [x, y]);
  // Wires leave and enter level, as a short straight piece at both ends.
  const [start] = points;
  const end = points.at(-1);
  const eased =
    start === undefined || end === undefined
      ? points
      : [start, [start[0] + 10, start[1]], ...points.slice(1, -1), [end[0] - 10, end[1]], end];
  const path = line().curve(curveMonotoneX).digits(1)(eased as [number, number][]) ?? '';
  return (
    <g class="wire" {...placeOf(['wiring', String(wire.index)])}>
      <title>{wire.label}</title>
      <path class="wire-reach" d={path} />
      <path class="wire-line" d={path} />
    </g>
  );
}

function NodeMark({ node }: { readonly node: NodeBox }): VNode {
  const reachable = useReachable(node.path, `${node.kind} ${node.id}`);
  return (
    <g class={`node node-${node.kind}`} {...placeOf(node.path)}>
      <g {...reachable}>
        <title>{`${node.kind} ${node.id}`}</title>
        <rect
          x={round(node.x)}
          y={round(node.y)}
          width={round(node.width)}
          height={round(node.height)}
          rx={node.kind === 'speaker' ? 0 : node.kind === 'subwoofer' ? 5 : 2}
        />
        <text
          class="node-name"
          x={round(node.x + node.width / 2)}
          y={round(node.y + 15)}
          text-anchor="middle"
        >
          {node.id}
        </text>
      </g>
      {node.inputs.map(({ name, y }) => (
        <g key={`in ${name}`} class="port">
          <circle cx={round(node.x)} cy={round(y)} r="2.5" />
          <text x={round(node.x + 7)} y={round(y + 3.5)}>
            {name}
          </text>
        </g>
      ))}
      {node.outputs.map(({ name, y }) => (
        <g key={`out ${name}`} class="port">
          <circle cx={round(node.x + node.width)} cy={round(y)} r="2.5" />
          <text x={round(node.x + node.width - 7)} y={round(y + 3.5)} text-anchor="end">
            {name}
          </text>
        </g>
      ))}
    </g>
  );
}

function ConnectionTable({ setup }: View): VNode {
  return (
    <WideTable label="Every connection">
      <TableHead columns={['from', 'to']} />
      <tbody>
        {setup.room.wiring.map(({ index, from, to }) => (
          <tr key={index} {...placeOf(['wiring', String(index)])}>
            <th scope="row">
              <ToSource path={['wiring', String(index)]}>{`${from.device}.${from.port}`}</ToSource>
            </th>
            <td>{`${to.device}.${to.port}`}</td>
          </tr>
        ))}
      </tbody>
    </WideTable>
  );
}

function PathTable({ setup, show }: View): VNode {
  return (
    <WideTable label="Every signal path">
      <TableHead
        columns={[
          'from',
          'channel',
          'to',
          'through',
          { figures: 'latency' },
          { figures: 'delay' },
          { figures: 'gain' },
          'polarity',
        ]}
      />
      <tbody>
        {setup.signalPaths.map((path) => (
          <tr
            key={`${path.source.device}.${path.source.port} ${path.target} ${path.set ?? ''} ${path.connections.join()}`}
            {...placeOf(['wiring', String(path.connections[0] ?? 0)])}
          >
            <th scope="row">{`${path.source.device}.${path.source.port}`}</th>
            <td>{path.channel ?? MISSING}</td>
            <td>{path.target}</td>
            <td class="why">
              {path.stages.map(({ stage }) => stage.replaceAll('_', ' ')).join(' → ')}
            </td>
            <td class="number">{shown(path.latency_s, show.time)}</td>
            <td class="number">{show.time(path.delay_s)}</td>
            <td class="number">{signed(path.gain_db, show.level(path.gain_db))}</td>
            <td>{path.inverted ? 'inverted' : 'normal'}</td>
          </tr>
        ))}
      </tbody>
    </WideTable>
  );
}

/** What a person with a torch behind the rack looks for: what is written on each cable, and where it goes. */
function Cables({
  cables,
  show,
}: {
  readonly cables: readonly Cable[];
  readonly show: Show;
}): VNode | null {
  if (cables.length === 0) return null;
  return (
    <Fold id="wiring-cables" summary={`Every cable (${cables.length})`}>
      <WideTable label="Every cable">
        <TableHead columns={['cable', 'label', 'from', 'to', 'kind', { figures: 'length' }]} />
        <tbody>
          {cables.map(({ id, label, from, to, kind, length_m }) => (
            <tr key={id} {...placeOf(['cables', id])}>
              <th scope="row">
                <ToSource path={['cables', id]}>{id}</ToSource>
              </th>
              <td>{label ?? MISSING}</td>
              <td>{cableEndText(from)}</td>
              <td>{cableEndText(to)}</td>
              <td>{kind ?? MISSING}</td>
              <td class="number">{shown(length_m, show.length)}</td>
            </tr>
          ))}
        </tbody>
      </WideTable>
    </Fold>
  );
}
