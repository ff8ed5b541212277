import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const comparableDeviceUnexplained = defineCheck({
  code: 'comparable-device-unexplained',
  level: 'error',
  title: 'Experience with another device is used without saying why it counts',
  basis: 'Regulation (EU) 2017/745 Annex III 1.1(a) (information on similar devices)',
  explain:
    'Field data come from another device, and the record does not say which one or why its experience says something about this one. A rate of another seal, other users or another way of reporting can be too low by a factor of ten.\n\nDescribe the device under `device.description` and give the reason under `device.reason`: which part, material, process or users are the same, and which are not.',
  examines: 'records of field data from comparable devices',
  subjects: ({ graph }) =>
    graph
      .recordsOf('field-data')
      .filter((record) => record.status !== 'retired' && record.fields.device.which === 'comparable'),
  judge: (record) => {
    const { description, reason } = record.fields.device;
    const missing = [
      ...(description === undefined ? ['what it is'] : []),
      ...(reason === undefined ? ['why it is comparable'] : []),
    ];
    return missing.length === 0
      ? []
      : [
          {
            place: placeOf(record, 'device', 'which'),
            message: `${record.id} uses the experience with another device and does not say ${missing.join(' and ')}`,
            hint: 'Add "description" and "reason" under "device".',
            records: [record.id],
          },
        ];
  },
});
