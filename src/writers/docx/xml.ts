/** Head of every part of the package. */
export const xmlHead = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';

/** Namespaces of WordprocessingML parts (ISO/IEC 29500-1, Transitional). */
export const wordNamespaces =
  'xmlns:w="http://schemas.openxmlformats.org/wordprocessingml/2006/main"' +
  ' xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"' +
  ' xmlns:wp="http://schemas.openxmlformats.org/drawingml/2006/wordprocessingDrawing"' +
  ' xmlns:a="http://schemas.openxmlformats.org/drawingml/2006/main"' +
  ' xmlns:pic="http://schemas.openxmlformats.org/drawingml/2006/picture"';

/** Text for XML content and attributes. */
export function escapeXml(text: string): string {
  // Most texts hold none of these, and one look is quicker than five.
  if (!/[&<>"\r]/.test(text)) return text;
  return text
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')
    .replaceAll('\r', '&#13;');
}
