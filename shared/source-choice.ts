import { z } from 'zod';

/**
 * Where in a file its rows stand, where the file leaves a choice: which sheet of a workbook, and which
 * row has the headers (counted from 1, as the spreadsheet or the text editor counts). Both are found
 * without being told; what is told here is taken.
 */
export const sourceChoiceSchema = z.object({
  sheet: z.string().optional(),
  headerRow: z.int().positive().optional(),
});
export type SourceChoice = z.infer<typeof sourceChoiceSchema>;
