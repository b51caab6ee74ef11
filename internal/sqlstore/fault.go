package sqlstore

import (
	"errors"
	"fmt"
	"strings"
)

// Fault is what is wrong with a record, its file or its server.
type Fault struct {
	Code   string // a key of Codes
	Place  string // the file or server, without a password
	Detail string // what fills {detail} of the sentence, "" where it has none
	Err    error  // what the database or the system said, nil where we found it ourselves
}

// Sentence says in English what is wrong.
func (f *Fault) Sentence() string { return f.fill(Codes[f.Code].Sentence) }

// Do says in English what to do about it.
func (f *Fault) Do() string { return f.fill(Codes[f.Code].Do) }

func (f *Fault) fill(text string) string {
	return strings.NewReplacer("{place}", f.Place, "{detail}", f.Detail).Replace(text)
}

// Error gives sentence, what to do, and the code.
func (f *Fault) Error() string {
	return fmt.Sprintf("%s %s [%s]", f.Sentence(), f.Do(), f.Code)
}

// Unwrap returns what the database or the system said.
func (f *Fault) Unwrap() error { return f.Err }

// Code returns the code of the fault in an error, "" where there is none.
func Code(err error) string {
	if f, ok := errors.AsType[*Fault](err); ok {
		return f.Code
	}
	return ""
}

// Words are the sentence of a fault and what to do about it.
type Words struct{ Sentence, Do string }

// Codes lists every fault of a record.
var Codes = map[string]Words{
	"record.address.unknown":    {`{place} is neither a file nor a server that holds a record.`, `Give a file name, or postgres://user@host/database.`},
	"record.file.missing":       {`There is no record at {place}.`, `Check the name, or make a new record there.`},
	"record.file.folder":        {`{place} cannot be opened or made: {detail}.`, `Check that its folder is there and may be written to.`},
	"record.file.locked":        {`Another program is writing to {place} and has not let go.`, `Wait for it to end, or close it, and try again; nothing was changed.`},
	"record.file.read-only":     {`{place} may be read but not written to.`, `Give yourself the right to write to the file and its folder.`},
	"record.file.full":          {`There is no room left on the disk for {place}.`, `Make room and try again; what had been saved before is still there.`},
	"record.file.foreign":       {`{place} is not a record of awn: {detail}.`, `Name another file or database; this one was left as it is.`},
	"record.file.damaged":       {`{place} is damaged: {detail}.`, `Keep it as it is, take a copy, and restore the latest backup.`},
	"record.file.machine":       {`The disk or the system failed {place}: {detail}.`, `Look after the disk first; then open the record again and check it.`},
	"record.schema.newer":       {`{place} was written by a newer awn: {detail}.`, `Use that release or a later one; this one would not understand it, and has changed nothing.`},
	"record.schema.stopped":     {`{place} could not be brought to this release: {detail}.`, `It stands as it was before; a copy lies beside a file. Use the former release until this is cleared up.`},
	"record.server.absent":      {`No server answers for {place}: {detail}.`, `Check host, port and network, and that PostgreSQL runs there.`},
	"record.server.refused":     {`The server refuses {place}: {detail}.`, `Check user, password, database and rights.`},
	"record.server.lost":        {`The server for {place} went away in the middle of work.`, `Try again: what was acknowledged is saved; the last entry may or may not be, and the same entry sent twice counts once.`},
	"record.server.busy":        {`Another entry on {place} stood in the way: {detail}.`, `Try again; nothing was changed.`},
	"record.reading.number":     {`A reading of series {detail} is not a number.`, `Leave it out: a reading that is missing is simply not there.`},
	"record.reading.series":     {`There is no series {detail} in this house.`, `Name the series first.`},
	"record.seal.broken":        {`The readings of a sealed span are no longer those that were sealed: {detail}.`, `Compare with a backup from before; figures that rest on this span are in doubt.`},
	"record.document.missing":   {`There is no document {detail} in this house.`, `Check the number, or bring the document in again.`},
	"record.document.changed":   {`Document {detail} is no longer what was put in.`, `Restore it from a backup; bringing the same file in again does not repair it.`},
	"record.house.unknown":      {`There is no house {detail} in {place}.`, `Name the house first.`},
	"record.person.missing":     {`There is no person {detail} in this house.`, `Check the number; the person may have been removed.`},
	"record.backup.exists":      {`{place} is there already.`, `Choose another name, or say that it may be replaced.`},
	"record.backup.damaged":     {`The backup {place} cannot be trusted: {detail}.`, `Use another backup; nothing was restored.`},
	"record.backup.target":      {`A record of {detail} kind cannot be put at {place} from this backup.`, `Restore a file to a file, or use an archive, which goes to either.`},
	"record.integrity.database": {`The database says of {place}: {detail}.`, `Keep it as it is, take a copy, and restore the latest backup.`},
}
