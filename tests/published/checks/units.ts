import { readQuantity } from '../../../src/units.ts';
import type { Check, Topic } from '../check.ts';

const NIST = 'NIST Special Publication 811, appendix B (exact definitions), as in the constants of SciPy';
const SI = 'by the definition of the unit (SI Brochure)';

function unit(id: string, text: string, si: string, expected: number, source = NIST, relative = 1e-14): Check {
  return {
    id: `units.${id}`,
    what: text,
    source,
    expected,
    computed: () => readQuantity(text, si).value,
    unit: si,
    tolerance: { relative },
  };
}

export const units: Topic = {
  title: 'Units',
  checks: [
    unit('mile', '1 mile', 'm', 1609.344),
    unit('foot', '1 ft', 'm', 0.3048),
    unit('mph', '1 mph', 'm/s', 0.44704),
    unit('pound', '1 lb', 'kg', 0.45359237),
    unit('pound-force', '1 lbf', 'N', 4.4482216152605),
    unit('psi', '1 psi', 'Pa', 6894.757293168, NIST, 1e-12),
    unit('foot-pound', '1 lbf ft', 'N m', 1.3558179483314, NIST, 1e-12),
    unit('horsepower', '1 hp', 'W', 745.69987158227, `${NIST}: 550 ft lbf/s`, 1e-12),
    unit('horsepower.metric', '1 PS', 'W', 735.49875, `${NIST}: 75 kgf m/s`),
    unit('kilowatt-hour', '1 kWh', 'J', 3.6e6, SI),
    unit('watt-hours', '1 Wh/km', 'J/m', 3.6, SI),
    unit('rpm', '3000 rpm', 'rad/s', 314.159265358979, 'closed form: 100 pi', 1e-14),
    unit('fahrenheit', '212 degF', 'K', 373.15, `${NIST}: (F + 459.67)/1.8`),
    unit('celsius', '25 degC', 'K', 298.15, SI),
    unit('amp-hour', '1 Ah', 'C', 3600, SI),
    {
      id: 'units.horsepower.homework',
      what: '54 853 W in hp',
      source: 'worked problem on a homework page, with 1 hp = 746 W: 73.53 hp',
      expected: 73.53,
      computed: () => 54_853 / readQuantity('1 hp', 'W').value,
      unit: 'hp',
      // 746 W is rounded: 0.04 %.
      tolerance: { absolute: 0.04 },
    },
  ],
};
