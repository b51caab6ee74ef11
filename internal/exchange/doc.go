// Package exchange turns files from outside into entries of the record, and
// the record into files that others can read. It keeps nothing and knows no
// clock: [Import] gives drafts for a store to append, and the writers take
// facts as they come out of one.
//
// In: weighbridge tickets and laboratory results, CSV or XLSX, as a
// [paper.ImportMap] says. All of a file comes in or nothing does, and every
// problem is named with its row and column. The id of an entry is made from the file and
// the row, so that the same file brought in twice changes nothing.
//
// Out: facts as lines of JSON that can be checked without this program,
// tables as CSV or as sheets of a workbook, readings as Parquet, and what
// trading partners are told as EPCIS events.
package exchange
