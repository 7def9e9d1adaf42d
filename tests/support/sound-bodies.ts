import { aMetal } from './a-metal.ts';
import { aCommission } from './a-commission.ts';
import { aPacket, type SmallStudio } from './a-small-studio.ts';
import { HEATS, STRIP } from './observed-heats.ts';
import { aPhoneJpeg } from './pictures.ts';
import { bench, pendant, pendantPlan, solders } from './pendant.ts';
import { aSolderLot, aSolderProduct } from './stock.ts';
import { aMetalProduct } from './stocked.ts';

/** Bodies that the small studio takes as they are, by route: what is wrong with a changed one is only what was changed. */
export async function soundBodies({ owner, actors, ids, clock, lots, signIn }: SmallStudio): Promise<Record<string, unknown[]>> {
  const [at, today] = [clock.now().toISOString(), clock.now().toISOString().slice(0, 10)];
  const other = await aCommission(owner);
  const made = await owner.post('/pieces', { commissionId: other.id, title: 'Spare', metal: 'sterling-925' }).expect(201);
  const madePiece = made.body.id as string;
  const { settings } = (await owner.get('/settings').expect(200)).body;
  const pieceId = ids['pieces']![0]!;
  const commissionId = ids['commissions']![0]!;
  const { request } = (await owner.post('/estimates', { pieceId }).expect(200)).body;
  const move = { occurredAt: at, deviceId: 'tablet-1', deviceSeq: 1 };
  const heat = (await owner.get(`/heats/${ids['heats']![0]}`).expect(200)).body;
  const ready = { jointFitted: true, fluxOn: true, protectionsPlaced: true, lotId: lots[heat.product.code] };
  const cautions = (heat.cautions as { id: string; due: boolean }[]).filter(({ due }) => due).map(({ id }) => id);
  const search = { timeMs: 20, workUnits: 1000, protections: [{ kind: 'sink', maxPerHeat: 1, leastDistanceMm: 8 }] };
  const [sent] = (await owner.get('/supplier-orders?state=sent').expect(200)).body.items;
  const priced = { ...pendant, joints: pendant.joints.map((joint) => ({ ...joint, solder: 'hard' })) };
  return {
    'POST /calculations/plan-check': [{ design: pendant, solders, bench, plan: pendantPlan }],
    'POST /calculations/plan-search': [{ design: pendant, solders, bench, options: { ...search, policy: 'both' } }],
    'POST /calculations/plan-what-if': [
      { design: pendant, solders, bench, plan: pendantPlan, edits: [{ kind: 'solder', heat: 3, solder: 'easy' }] },
    ],
    'POST /calculations/torch-calibration': [
      { torch: 'medium', observations: [{ ...HEATS.disc, secondsToFlow: 8 }], strips: [{ ...STRIP, secondsBetweenChips: 3 }] },
    ],
    'POST /calculations/piece-weight': [{ design: pendant }],
    // Of a form, the files.
    'POST /photos': [await aPhoneJpeg()],
    'PATCH /photos/:id': [{ caption: 'The bezel', showsPerson: false, clientMaySee: true }],
    // Tables of text.
    'POST /imports/suppliers': [
      'name,lead_working_days,minimum_EUR,note\nHeron Metals,8,150.00,"asks, then sends"\nMillrace,5,,\n',
    ],
    'POST /imports/clients': ['name,email,phone,ring_size_mm\nShale,s@example.org,,54\nPebble,,+4915112345678,\n'],
    'POST /imports/solder-products': [
      'code,name,grade_word,solidus_c,liquidus_c,cadmium,lead_or_tin,form,density_g_per_cm3,smallest_piece_g,safety_sheet,supplier,pack_g,price_EUR_per_g,lead_weeks\nnew-hard,New hard,hard,740,775,no,no,wire,9.97,0.0013,folder 12,Heron Metals,5,1.85,2\n',
    ],
    'POST /imports/solder-lots': [
      `lot,product,received_on,quantity_g,unit_cost_EUR_per_g,mark\nL77,hard,2031-05-01,20,1.85,H\nold coil,easy,2031-05-01,5,1.85,E\n`,
    ],
    'POST /imports/metal-products': [
      'name,metal,form,thickness_mm,supplier,price_EUR,price_per\nSheet 0.8,sterling-925,sheet,0.8,Heron Metals,46.00,ozt\n',
    ],
    'POST /imports/metal-lots': [
      `lot,product,received_on,quantity_g,unit_cost_EUR_per_g,note\nM77,Round wire 1.2,2031-05-01,40,1.48,"a coil, tied"\n`,
    ],
    'POST /private-links': [{ commissionId }],
    'POST /client-letters': [{ commissionId, kind: 'collection_notice', how: 'post', sentOn: today, note: 'It is ready.' }],
    'POST /private-links/:id/moves': [{ ...move, from: 'open', to: 'cut_off' }],
    'POST /calculations/drawing': [{ design: pendant, title: 'Pendant', labels: false }],
    'POST /calculations/solder-use': [{ design: priced, solders: solders.map((solder) => ({ ...solder, densityGPerCm3: 9.5 })) }],
    'POST /calculations/estimate': [request],
    'POST /calculations/hourly-rates': [
      {
        payPerYear: '30000',
        onCostsPerYear: '7440',
        paidHoursPerYear: 1560,
        overheadPerYear: '19430.40',
        consumablesPerYear: '3036',
        people: 1,
        daysPerYear: 220,
        hoursPerDay: 8,
        benchFraction: 0.5,
      },
    ],
    'POST /calculations/ring-blank': [
      { sizeMm: 54, stock: { kind: 'half_round_wire', widthMm: 5, heightMm: 1.6 }, metal: 'sterling-925', overMm: 1 },
      { insideDiameterMm: 12.1, stock: { kind: 'strip', widthMm: 4, thicknessMm: 0.4 }, metal: 'fine-silver-999' },
    ],
    'POST /calculations/unit-conversion': [
      { value: 18, from: 'awg', to: 'mm' },
      { value: 1, from: '[oz_tr]', to: 'g' },
    ],
    'POST /sessions': [signIn],
    'POST /tokens': [
      { name: 'scale', roles: ['bench'] },
      { name: 'shelf', onlyReads: true },
    ],
    'POST /pins': [{ pin: '2718' }],
    'POST /shared-tablets': [{ name: 'Anvil' }],
    'POST /shared-tablets/current/unlocks': [{ personId: ids['people']![0], pin: '2718' }],
    'POST /shared-tablets/current/pins': [{ personId: ids['people']![0], code: 'guessed', pin: '2718' }],
    'POST /people/owner-resets': [{ code: 'guessed', password: signIn.password }],
    'POST /people': [{ name: 'Shale', roles: ['bench', 'desk'], tutor: true, ratePerHour: '24.00', benchMinutesPerDay: 300 }],
    'PATCH /people/:id': [{ name: 'Shale', active: true, benchMinutesPerDay: 240 }],
    'POST /clients': [{ name: 'Millrace', email: 'm@example.org', language: 'de', ringSizeMm: 54, notes: 'Prefers matt' }],
    'POST /clients/:id/forgetting': [{ name: 'Millrace' }],
    'PATCH /clients/:id': [{ phone: '+4915112345678', ringSizeMm: 55 }],
    'POST /pieces': [{ commissionId, title: 'Pendant', metal: 'sterling-925' }],
    'PUT /pieces/:id/design': [{ ...pendant, entered: { '/parts/0/form/thicknessMm': '20 ga' } }],
    'POST /pieces/:id/plans': [{ plan: pendantPlan }, { search }],
    'POST /plan-searches': [
      { pieceId, options: search },
      { design: pendant, solders, bench, options: { ...search, policy: 'both' } },
    ],
    'POST /plan-searches/:id/moves': [{ ...move, from: 'running', to: 'stopped' }],
    'POST /pieces/:id/moves': [{ ...move, from: 'drawn', to: 'cut', metalIssuedG: 7.5 }],
    'POST /heats/:id/moves': [
      { ...move, ...ready, from: 'laid_out', to: 'primed', cautionsRead: cautions },
      { ...move, from: 'primed', to: 'alight' },
      { ...move, from: 'alight', to: 'cooling', seen: 'ran bright' },
      { ...move, from: 'cooling', to: 'in_pickle', blackHeat: true, ironOff: true },
    ],
    'POST /pieces/:id/joints/:jointId/moves': [{ ...move, from: 'sound', to: 'open', reason: 'opened again' }],
    'PUT /plans/:id': [{ plan: pendantPlan }],
    'POST /plans/:id/what-if': [
      { edits: [{ kind: 'unprotect', heat: 4, protections: [{ kind: 'shield', guards: 'wall' }] }] },
      { edits: [{ kind: 'own_heat', joint: 'bezel', at: 3 }] },
    ],
    'POST /heats/:id/sightings': [{ saw: 'flow', occurredAt: at, deviceId: 'tablet-1', deviceSeq: 1 }],
    'POST /heats/:id/tutors-yes': [
      { studentId: actors.student.personId, yes: true },
      { studentId: actors.student.personId, yes: false },
    ],
    'POST /plans/:id/moves': [{ ...move, from: 'draft', to: 'checked' }],
    'POST /incidents/:id/moves': [{ ...move, from: 'seen', to: 'explained', likelyCause: 'gap' }],
    'POST /bench-times/:id/moves': [
      { ...move, from: 'stopped', to: 'agreed' },
      { ...move, from: 'running', to: 'stopped' },
    ],
    'POST /commissions/:id/moves': [{ ...move, from: 'asked', to: 'shaping' }],
    'POST /quotes/:id/moves': [
      { ...move, from: 'sketch', to: 'sent' },
      { ...move, from: 'sketch', to: 'binned' },
    ],
    'POST /solder-lots/:id/moves': [{ ...move, from: 'open', to: 'held_back', reason: 'no mark' }],
    'POST /incidents': [{ pieceId, kind: 'pit', jointId: 'bezel', minutesLost: 10, solderUsedG: 0.1, note: 'A pit by the seam' }],
    'PATCH /incidents/:id': [{ likelyCause: 'gap', minutesLost: 12 }],
    'POST /bench/steps': [
      {
        sentAt: at,
        steps: [
          {
            do: 'move_heat',
            key: 'step-0001',
            heatId: heat.id,
            ...move,
            ...ready,
            from: 'laid_out',
            to: 'primed',
            cautionsRead: cautions,
          },
          { do: 'undo', key: 'step-0002', undoes: 'step-0001', ...move, deviceSeq: 2 },
        ],
      },
      { sentAt: at, steps: [{ do: 'start_time', key: 'step-0003', pieceId, operation: 'sawing', ...move }] },
    ],
    'POST /bench-times': [
      { general: true, operation: 'sawing', startedAt: '2031-05-05T06:00:00Z', stoppedAt: '2031-05-05T07:00:00Z' },
      { pieceId, operation: 'sawing', minutesByHand: 20 },
    ],
    'POST /benches': [{ name: 'Anvil', minutesPerDay: 330 }],
    'PATCH /benches/:id': [
      { name: 'Lantern', personId: ids['people']![0], minutesPerDay: 200, active: false },
      { minutesPerDay: 200 },
    ],
    'POST /absences': [{ firstOn: today, lastOn: today, minutesPerDay: 120, weekly: true, reason: 'evening class' }],
    'PATCH /absences/:id': [{ lastOn: '2031-06-20', weekly: false, reason: 'fair' }],
    'POST /learned-factors': [{ operation: 'filing and emery', factor: 1.25 }],
    'POST /month-locks': [{ month: '2031-04' }],
    'POST /bench-times/:id/corrections': [{ minutes: -5, reason: 'the phone rang' }],
    'PATCH /bench-times/:id': [{ operation: 'filing', minutesByHand: 25 }],
    'POST /commissions': [
      {
        clientId: ids['clients']![0],
        title: 'Ring',
        kind: 'one_off',
        wish: 'A ring',
        dueOn: '2031-06-20',
        placeOfSale: 'DE',
        quantity: 2,
      },
    ],
    'PATCH /commissions/:id': [{ wish: 'A ring, matt', quantity: 3, dueOn: '2031-06-21' }],
    'POST /estimates': [
      { pieceId, overrides: { policy: request.policy } },
      { commissionId, overrides: request },
    ],
    'POST /quotes': [{ commissionId, overrides: { policy: request.policy }, validUntil: '2031-05-20' }],
    'POST /quotes/:id/what-if': [{ overrides: { policy: request.policy } }],
    'PATCH /quotes/:id': [{ overrides: request, validUntil: '2031-05-20' }],
    'POST /payments': [
      { commissionId, kind: 'stage', how: 'card', amount: { amountMinor: 100, currency: 'EUR' }, receivedOn: today },
    ],
    'POST /payments/:id/moves': [
      { ...move, from: 'received', to: 'part_sent_back', amount: { amountMinor: 10, currency: 'EUR' }, reason: 'a scratch' },
      { ...move, from: 'due', to: 'received' },
    ],
    'PUT /place-rules/:id': [{ source: 'the office', leastSolderFinenessFraction: 0.65, markOverG: 7.78, taxRateFraction: 0.19 }],
    'POST /hallmark-packets': [aPacket(madePiece)],
    'PATCH /hallmark-packets/:id': [{ office: 'Tollgate office', post: { amountMinor: 900, currency: 'EUR' }, articles: 3 }],
    'POST /hallmark-packets/:id/moves': [{ ...move, from: 'packing', to: 'dropped' }],
    'PATCH /settings': [settings],
    'PUT /preferences': [
      { language: 'de', units: { length: 'in', temperature: 'F', mass: 'ozt' } },
      { language: null, units: null },
    ],
    'POST /metals': [aMetal({ id: 'our-970' }), aMetal({ id: 'bronze', kind: 'base', like: 'copper' })],
    'PATCH /metals/:id': [
      { name: 'Sheet of Alder Street', solidusC: { value: 880, source: 'own trial' }, like: null },
      { active: true },
    ],
    'POST /torches': [{ name: 'Micro', torch: 'micro' }],
    'PATCH /torches/:id': [{ name: 'Pencil torch', torch: { powerW: 150, spreadMm: 7, gasC: 1500 } }],
    'POST /calibrations': [
      { torchId: ids['torches']![0], observations: [{ ...HEATS.ring, secondsToFluxClear: 9, secondsToFlow: 17 }] },
    ],
    'POST /solder-products': [aSolderProduct()],
    'PATCH /solder-products/:id': [aSolderProduct({ code: 'hard' })],
    'POST /solder-products/:id/safety-sheet': [await aPhoneJpeg()],
    'POST /solder-lots': [aSolderLot(ids['solder-products']![0]!)],
    'POST /scrap-returns': [{ jar: 'sweep', refiner: 'Millrace Refiners', weighedG: 40, sentOn: today }],
    'POST /scrap-returns/:id/settlements': [
      {
        settledOn: today,
        meltLossFraction: 0.06,
        assayFraction: 0.9,
        payFraction: 0.94,
        finePricePerG: '1.05',
        feeFixed: '25',
        feePerG: '0.04',
      },
    ],
    'POST /scrap-returns/:id/reversals': [{ reason: 'other jar' }],
    'POST /pickle-baths': [{}, { acid: 'citric', volumeL: 1, strengthGPerL: 80, copperLimitGPerL: 8, openedOn: today }],
    'POST /pickle-baths/:id/moves': [{ ...move, from: 'fresh', to: 'neutralised', ph: 7.5, reason: 'too strong' }],
    'POST /stocktakes': [{}],
    'POST /stocktakes/:id/counts': [{ counts: [{ lotId: lots['hard'], weighedG: 6, tareG: 1, reason: 'a crumb' }] }],
    'POST /stocktakes/:id/moves': [{ ...move, from: 'counting', to: 'dropped' }],
    'POST /suppliers': [
      { name: 'Anvil & Sons', leadWorkingDays: 5, minimum: { amountMinor: 9000, currency: 'EUR' }, note: 'by post' },
    ],
    'PATCH /suppliers/:id': [{ leadWorkingDays: 6, post: { amountMinor: 650, currency: 'EUR' }, active: true }],
    'POST /supplier-orders': [
      { supplierId: ids['suppliers']![0], lines: [{ metalProductId: ids['metal-products']![0], quantityG: 20 }] },
    ],
    'PATCH /supplier-orders/:id': [{ lines: [{ productId: ids['solder-products']![0], quantityG: 20 }] }],
    'POST /supplier-orders/:id/moves': [{ ...move, from: 'to_order', to: 'sent' }],
    'POST /supplier-orders/:id/deliveries': [{ receivedOn: today, lines: [{ lineId: sent.lines[0].id, quantityG: 1 }] }],
    'POST /metal-products': [aMetalProduct({ name: 'Strip', form: { kind: 'strip', widthMm: 4, thicknessMm: 0.4 } })],
    'PATCH /metal-products/:id': [{ packG: 2, price: { amount: '1.60', per: 'g' }, entered: { '/form/diameterMm': '16 ga' } }],
    'POST /metal-products/:id/measure': [{ lengthMm: 120 }, { massG: 3 }],
    'POST /metal-lots': [{ productId: ids['metal-products']![0], receivedOn: today, lengthMm: 500, note: 'in the long box' }],
    'POST /metal-lots/:id/weighings': [{ weighedG: 78.5, reason: 'counted' }],
    'POST /metal-movements': [{ kind: 'issue', lotId: ids['metal-lots']![0], quantityG: 2, pieceId, occurredAt: at }],
    'POST /metal-movements/:id/reversals': [{ reason: 'other lot' }],
    'POST /supplies': [
      {
        name: 'Jump rings 4 mm',
        kind: 'finding',
        unit: 'piece',
        price: '0.12',
        supplier: 'Harbour Metals',
        pack: 100,
        orderPoint: 50,
      },
      { name: 'Propane', kind: 'gas', unit: 'g', pack: 5000, safetySheet: 'green binder' },
    ],
    'PATCH /supplies/:id': [{ price: '0.03', pack: 250, orderPoint: 100, supplier: null, active: true }],
    'POST /supply-movements': [
      { kind: 'use', supplyId: ids['supplies']![0], quantity: 2.5 },
      { kind: 'receive', supplyId: ids['supplies']![0], quantity: 500, unitCost: '0.02' },
      { kind: 'count_up', supplyId: ids['supplies']![0], quantity: 1, reason: 'counted' },
    ],
    'POST /supply-movements/:id/reversals': [{ reason: 'other jar' }],
    'POST /solder-lots/:id/weighings': [{ weighedG: 4.4, reason: 'counted' }],
    'POST /stock-movements': [
      { kind: 'put_back', lotId: lots['hard'], quantityG: 0.1, reason: 'found it', pieceId, occurredAt: at },
    ],
  };
}
