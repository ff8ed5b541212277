/** A schema that allows only the fields that it describes, so that a field nobody described is found. */
export const closedSchema = (value: unknown): unknown =>
  Array.isArray(value)
    ? value.map(closedSchema)
    : typeof value === 'object' && value !== null
      ? {
          ...Object.fromEntries(Object.entries(value).map(([key, each]) => [key, closedSchema(each)])),
          ...('type' in value && value.type === 'object' && 'properties' in value
            ? { additionalProperties: false }
            : {}),
        }
      : value;
