import { placeOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

/**
 * Routes that no device of the class takes. Premarket approval is for class III (21 CFR 860.3, 814.1), exemption from
 * notification is given to devices of class I and II (21 CFR 860.3, section 510(l) and (m) of the Act), and a De Novo request
 * ends in class I or II (21 CFR 860.200). A notification for class III stays open: a few devices from before 1976 have none other.
 */
const neverTaken: Readonly<Record<string, readonly string[]>> = {
  I: ['premarket approval'],
  II: ['premarket approval'],
  III: ['exempt', 'De Novo'],
};

export const usRouteDiffers = defineCheck({
  code: 'us-route-differs',
  level: 'warning',
  title: 'Class and route in the United States do not go together',
  basis: '21 CFR 860.3, 860.200 and 814.1; sections 510(l) and (m) of the Act (from memory)',
  explain:
    'The classification states a class in the United States and a route that no device of this class takes: premarket approval is for class III, exemption and De Novo are for class I and II. A notification, 510(k), is not judged.\n\nA submission by the wrong route is refused after months, and one that was held to be exempt and is not puts a device on the market that nobody has reviewed.\n\nLook up the classification regulation and the product code, and correct the class or the route. The decision is for a regulatory professional; `to decide` says that it is open.',
  examines: 'classifications with class and route in the United States',
  subjects: ({ graph }) =>
    graph
      .recordsOf('classification')
      .filter(({ status, fields }) => status !== 'retired' && fields.us?.class !== undefined),
  judge: (record): readonly Draft[] => {
    const { us } = record.fields;
    if (us?.class === undefined || neverTaken[us.class]?.includes(us.route) !== true) return [];
    return [
      {
        place: placeOf(record, 'us', 'route'),
        message: `${record.id}: class ${us.class} in the United States with the route "${us.route}", which is for ${us.class === 'III' ? 'class I and II' : 'class III'}`,
        hint: 'Look up the regulation and the product code, and correct the class or the route.',
        records: [record.id],
        related: [{ place: placeOf(record, 'us', 'class'), message: `class ${us.class}` }],
        data: { class: us.class, route: us.route },
      },
    ];
  },
});
