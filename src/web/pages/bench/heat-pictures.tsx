import { useEffect, useState } from 'preact/hooks';
import type { Design } from '../../../../shared/design/design.ts';
import { expandDesign } from '../../../../shared/design/expand-design.ts';
import { drawHeat } from '../../../../shared/drawing/draw-heat.ts';
import { meltingLadder } from '../../../../shared/drawing/melting-ladder.ts';
import { predictedState } from '../../../../shared/thermal/predicted-state.ts';
import { api, bodyOf } from '../../api/client.ts';
import type { HeatNow } from '../../offline/heat-as-done.ts';
import { keepDesign, keptDesign } from '../../offline/kept-designs.ts';
import { useSession } from '../../session/session.ts';
import { showQuantity } from '../../units/shown-units.ts';
import { Picture } from '../../ui/picture.tsx';
import { useWords } from '../../words/words.ts';

/** The melting ladder of the heat, and the piece in the fire to scale. */
export function HeatPictures({ heat }: { heat: HeatNow }) {
  const words = useWords();
  const { units } = useSession();
  const { say } = words;
  const design = useDesign(heat.pieceId);
  const shown = (celsius: number) => showQuantity(words, units, 'temperature', celsius);
  const earlier = heat.expected?.earlierJoints ?? [];
  const number = heat.position;
  const flowC = heat.expected?.flowC ?? null;
  const ladder = meltingLadder({
    flowC,
    // The margins are solidus − peak and liquidus − peak, so they say the window of the joint as it was checked.
    joints: earlier.map((one) => ({
      ...one,
      solidusC: one.peakC + one.solidMarginK,
      liquidusC: one.peakC + one.runMarginK,
      name: one.joint,
      number: (design?.joints.findIndex(({ id }) => id === one.joint) ?? -1) + 1,
      verdict: predictedState(one),
      says: say(`plan.joint.${predictedState(one)}`),
    })),
    words: {
      title: say('plan.ladder', { number }),
      description: say('plan.ladderDesc'),
      flow: flowC === null ? '' : say('plan.flowLine', { temperature: shown(flowC) }),
      temperature: shown,
    },
  });
  const drawing =
    design &&
    drawHeat(design, {
      heat: { joints: heat.joints, protections: heat.protections, ...(heat.flame && { flame: heat.flame }) },
      inFire: heat.partsInFire,
      made: earlier.map(({ joint }) => joint),
      words: {
        title: say('plan.drawing', { number }),
        description: say('plan.inFire', { parts: heat.partsInFire.join(', ') }),
      },
    });
  return (
    <div class="heat-pictures">
      {earlier.length > 0 && <Picture svg={ladder} />}
      {drawing && <Picture svg={drawing} />}
    </div>
  );
}

/** As the piece was drawn last; kept on the device, so that it is there without a network. */
function useDesign(pieceId: string): Design | undefined {
  const [design, setDesign] = useState<Design | undefined>(() => keptDesign(pieceId));
  useEffect(() => {
    const ending = new AbortController();
    setDesign(keptDesign(pieceId));
    bodyOf(api.GET('/api/v1/pieces/{id}/design', { params: { path: { id: pieceId } }, signal: ending.signal }))
      .then((drawn) => {
        const { parts, joints, contacts, rules } = drawn as unknown as Design;
        const single = expandDesign({ parts, joints, ...(contacts && { contacts }), ...(rules && { rules }) }).design;
        keepDesign(pieceId, single);
        setDesign(single);
      })
      // The heat can be read without its drawing.
      .catch(() => undefined);
    return () => ending.abort();
  }, [pieceId]);
  return design;
}
