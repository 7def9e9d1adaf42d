import { Decimal, sum, ZERO } from '../decimal.ts';
import type { EstimateRequest, FluxUse, Fuel, GasUse, PickleUse } from './estimate-request.ts';
import type { WeighedPart } from './estimate-materials.ts';
import { finder, fraction, physics, price } from './inputs.ts';
import { copperIn, pickleDip } from './pickle-dip.ts';
import type { Worksheet } from './worksheet.ts';

/** Lower heating value, kJ/g, and grams of oxygen that burn a gram. @source Moran & Shapiro, Table A-25; stoichiometry */
const FUELS: Readonly<Record<Fuel, { heatKJPerG: string; oxygenGPerG: string }>> = {
  propane: { heatKJPerG: '46.35', oxygenGPerG: '3.628' },
  butane: { heatKJPerG: '45.7', oxygenGPerG: '3.579' },
  acetylene: { heatKJPerG: '48.2', oxygenGPerG: '3.072' },
  methane: { heatKJPerG: '50.0', oxygenGPerG: '3.989' },
  hydrogen: { heatKJPerG: '120', oxygenGPerG: '7.937' },
};

interface HeatUse {
  fluxG: Decimal;
  cuoG: Decimal;
  acidG: Decimal;
  fuelG: Decimal;
}

/** Flux, pickle and gas over all heats, a line each; what the request leaves out has none. */
export function costHeats(
  sheet: Worksheet,
  parts: readonly WeighedPart[],
  { heats, design, flux, pickle, gas }: EstimateRequest,
): void {
  const [jointOf, partOf] = [finder(design.joints), finder(parts)];
  const uses = heats.map((heat, index): HeatUse => {
    for (const joint of heat.joints) jointOf(joint, `heat ${index + 1} joint`);
    const inFire = heat.parts.map((part) => partOf(part, `heat ${index + 1} part`));
    const areaCm2 = sum(inFire.map((part) => part.areaCm2));
    const massG = sum(inFire.map(({ netG }) => netG));
    const key = `heat.H${index + 1}`;
    sheet.note(`${key}.area`, areaCm2, 'cm2');
    sheet.note(`${key}.mass`, massG, 'g');
    const fluxG = flux ? sheet.note(`${key}.flux`, areaCm2.times(physics('flux.gPerCm2', flux.gPerCm2, { from: 0 })), 'g') : ZERO;
    const { cuoG, acidG } = pickle ? dip(sheet, key, { areaCm2, fluxG, flux, pickle }) : { cuoG: ZERO, acidG: ZERO };
    const fuelG = gas ? burn(sheet, key, { massG, peakC: heat.peakC, gas }) : ZERO;
    return { fluxG, cuoG, acidG, fuelG };
  });
  if (flux) costFlux(sheet, sum(uses.map(({ fluxG }) => fluxG)), flux);
  if (pickle) costPickle(sheet, uses, pickle);
  if (gas) costGas(sheet, sum(uses.map(({ fuelG }) => fuelG)), gas);
}

/** What one dip takes from the bath: for the oxide, for the borax of the flux glass, and what is carried out on the work. */
function dip(
  sheet: Worksheet,
  key: string,
  { areaCm2, fluxG, flux, pickle }: { areaCm2: Decimal; fluxG: Decimal; flux: FluxUse | undefined; pickle: PickleUse },
): Pick<HeatUse, 'cuoG' | 'acidG'> {
  const boraxG = flux ? fluxG.times(fraction('flux.boraxFraction', flux.boraxFraction)) : ZERO;
  const { cuoG, acidG } = pickleDip({ areaCm2, boraxG }, pickle);
  sheet.note(`${key}.cuo`, cuoG, 'g');
  sheet.note(`${key}.acid`, acidG, 'g');
  return { cuoG, acidG };
}

/** t = t_fixed + m · c · (T − 20)/(η · P); fuel = P · t / LHV. */
function burn(sheet: Worksheet, key: string, { massG, peakC, gas }: { massG: Decimal; peakC: number; gas: GasUse }): Decimal {
  const powerW = physics('gas.powerW', gas.powerW, { above: 0 });
  const heatJ = massG
    .times(physics('gas.specificHeatJPerGK', gas.specificHeatJPerGK, { above: 0 }))
    .times(physics(`${key}.peakC`, peakC, { from: 20 }).minus(20));
  const usefulW = powerW.times(physics('gas.efficiency', gas.efficiency, { above: 0, to: 1 }));
  const flameS = sheet.note(`${key}.flame`, physics('gas.fixedS', gas.fixedS, { from: 0 }).plus(heatJ.div(usefulW)), 's');
  return sheet.note(`${key}.gas`, powerW.times(flameS).div(FUELS[gas.fuel].heatKJPerG).div(1000), 'g');
}

function costFlux(sheet: Worksheet, totalG: Decimal, { pricePerG }: FluxUse): void {
  sheet.note('flux.total', totalG, 'g');
  sheet.line('flux', 'flux', sheet.money('flux.cost', totalG.times(price('flux.pricePerG', pricePerG))));
}

/** A bath has two clocks, copper and acid; what is used of the one that runs out first is paid for. */
function costPickle(sheet: Worksheet, uses: readonly HeatUse[], pickle: PickleUse): void {
  const acidG = sheet.note('pickle.acid', sum(uses.map((use) => use.acidG)), 'g');
  const copperG = sheet.note('pickle.copper', copperIn(sum(uses.map(({ cuoG }) => cuoG))), 'g');
  const volumeL = physics('pickle.volumeL', pickle.volumeL, { above: 0 });
  const bathG = volumeL.times(pickle.strengthGPerL);
  const byCopper = copperG.div(volumeL.times(physics('pickle.copperLimitGPerL', pickle.copperLimitGPerL, { above: 0 })));
  const byAcid = acidG.div(bathG.times(physics('pickle.usableAcidFraction', pickle.usableAcidFraction, { above: 0, to: 1 })));
  sheet.note('pickle.share_by_copper', byCopper, '1');
  sheet.note('pickle.share_by_acid', byAcid, '1');
  const makeUp = bathG.times(price('pickle.pricePerG', pickle.pricePerG));
  const bath = sheet.exact('pickle.bath_cost', makeUp.plus(price('pickle.disposalPerBath', pickle.disposalPerBath)));
  sheet.line('pickle', 'pickle', sheet.money('pickle.cost', Decimal.max(byCopper, byAcid).times(bath)));
}

function costGas(sheet: Worksheet, fuelG: Decimal, gas: GasUse): void {
  sheet.note('gas.fuel', fuelG, 'g');
  sheet.line('gas', 'gas', sheet.money('gas.cost', fuelG.times(price('gas.pricePerG', gas.pricePerG))));
  if (gas.oxygenPricePerG === undefined) return;
  const oxygenG = sheet.note('gas.oxygen', fuelG.times(FUELS[gas.fuel].oxygenGPerG), 'g');
  sheet.line('gas', 'oxygen', sheet.money('gas.oxygen_cost', oxygenG.times(price('gas.oxygenPricePerG', gas.oxygenPricePerG))));
}
