package cli

import (
	"context"
	"encoding/hex"
	"errors"
	"fmt"
	"strconv"
	"strings"

	"awn/internal/malthouse"
	"awn/internal/report"
	"awn/internal/sqlstore"
	"awn/ledger"
)

type backupCommand struct {
	File string `arg:"" placeholder:"FILE" help:"A file that is not there yet."`
	recorded
	Archive bool `help:"Write an archive, which goes into a file or a server, in place of a copy of the file."`
}

// Help says what a backup is.
func (c *backupCommand) Help() string {
	return `  awn backup monday.db
  awn backup monday.zip --archive

Others may go on writing. The backup is checked before it has its name. The key
that certificates are signed with is not in it: keep that elsewhere.`
}

// Run backs the record up.
func (c *backupCommand) Run(j *job) error {
	return c.ask(j, func(ctx context.Context, d *desk) error {
		if err := d.DB.Backup(ctx, c.File, c.Archive); err != nil {
			return err
		}
		fmt.Fprintln(j.out, c.File)
		return nil
	})
}

type restoreCommand struct {
	Backup  string `arg:"" placeholder:"BACKUP" help:"The backup."`
	DB      string `name:"db" env:"AWN_DB" required:"" placeholder:"WHERE" help:"Where the record shall be."`
	Replace bool   `help:"Put it in the place of a record that is there, which is kept under another name."`
}

// Help says what is checked.
func (c *restoreCommand) Help() string {
	return `  awn restore monday.db --db awn.db
  awn restore monday.zip --db postgres://awn@host/record

The chain of facts, documents and readings are checked before the record gets
its name. A head printed on a later certificate shows what is missing: see
“awn verify --head”.`
}

// Run restores a backup.
func (c *restoreCommand) Run(j *job) error {
	verify := func(ctx context.Context, db *sqlstore.DB) error {
		houses, err := db.Houses(ctx)
		for _, h := range houses {
			if _, err := db.VerifyChain(ctx, h.Code); err != nil {
				return err
			}
		}
		return err
	}
	if err := sqlstore.Restore(j.ctx, c.Backup, c.DB, c.Replace, verify); err != nil {
		return err
	}
	fmt.Fprintln(j.out, c.DB)
	return nil
}

// verifyRecord checks the record itself.
func (c *verifyCommand) verifyRecord(j *job) error {
	return recorded{DB: c.DB, As: c.As, telling: c.telling}.ask(j, func(ctx context.Context, d *desk) error {
		if err := d.actor.Permit(malthouse.UseLook); err != nil {
			return err
		}
		var heads []ledger.Head
		if c.Head != "" {
			h, err := head(c.Head)
			if err != nil {
				return err
			}
			heads = append(heads, h)
		}
		at, err := d.DB.VerifyChain(ctx, d.Code, heads...)
		if broken, ok := errors.AsType[*ledger.Broken](err); ok {
			return &no{broken}
		}
		if err != nil {
			return err
		}
		if err := d.DB.Check(ctx); err != nil {
			return &no{err}
		}
		compared, rolled, err := d.Sealed(ctx, d.actor)
		if sqlstore.Code(err) == "record.seal.broken" {
			return &no{err}
		} else if err != nil {
			return err
		}
		if c.Rebuild {
			if err := c.rebuild(j, d); err != nil {
				return err
			}
		}
		if compared+rolled > 0 {
			j.note("awn: readings of %s are as they were sealed; %d are rolled up.", counted(compared, "stretch"), rolled)
		}
		if c.JSON {
			return report.WriteJSON(j.out, report.Pairs{}.With("awn", "verified/1").With("seq", at.Seq).With("hash", hex.EncodeToString(at.Hash[:])))
		}
		fmt.Fprintf(j.out, "The record is whole: entries 1 to %d, each as it was entered.\nHead %d:%s\n", at.Seq, at.Seq, hex.EncodeToString(at.Hash[:]))
		return nil
	})
}

// rebuild makes all that follows from the facts again.
func (c *verifyCommand) rebuild(j *job, d *desk) error {
	differed, err := d.DB.Rebuild(j.ctx, d.Code)
	if err != nil {
		return err
	}
	if len(differed) > 0 {
		return &no{fmt.Errorf("what was worked out from the facts was not what they say, and is now: %s", strings.Join(differed, ", "))}
	}
	j.note("awn: all that follows from the facts was made again, and is the same.")
	return nil
}

// head reads the end of a record as a certificate prints it: 14:9f86d0...
func head(text string) (ledger.Head, error) {
	var h ledger.Head
	number, hash, found := strings.Cut(text, ":")
	seq, err := strconv.ParseInt(number, 10, 64)
	sum, bad := hex.DecodeString(hash)
	if !found || err != nil || bad != nil || len(sum) != len(h.Hash) {
		return h, &lineError{"--head: write the number of the entry, a colon and the hash, as verify prints them."}
	}
	h.Seq = seq
	copy(h.Hash[:], sum)
	return h, nil
}

type configCommand struct {
	Key   string `arg:"" optional:"" placeholder:"KEY" help:"What is set: house.name, house.address, house.contact, house.zone, alarm.unexplained, origin.shown, readings.keep."`
	Value string `arg:"" optional:"" placeholder:"VALUE" help:"What it shall be."`
	entering
}

// Help says what can be set.
func (c *configCommand) Help() string {
	return `  awn config                             what is set
  awn config house.name "Hallow Sound"
  awn config house.zone Europe/London
  awn config alarm.unexplained 0.02
  awn config readings.keep 400           days; the close rolls up older ones
  awn config origin.shown grower         none, region or grower, on certificates

What is set, and by whom, is on record.`
}

// Run shows or sets what the house has set.
func (c *configCommand) Run(j *job) (err error) {
	if c.Key != "" && c.Value != "" {
		return c.use(j, func(ctx context.Context, d *desk, e malthouse.Entry) (malthouse.Done, error) {
			return d.Settle(ctx, d.actor, e, c.Key, c.Value)
		})
	}
	d, err := c.open(j, true)
	if err != nil {
		return err
	}
	return errors.Join(c.show(j, d), d.DB.Close())
}

func (c *configCommand) show(j *job, d *desk) error {
	for _, k := range malthouse.Settings() {
		if c.Key != "" && c.Key != k.Key {
			continue
		}
		value, found, err := d.Desk.Setting(j.ctx, k.Key)
		if err != nil {
			return err
		}
		where := "set in the record"
		if !found {
			value, where = k.Default, "usual"
		}
		if k.Key == malthouse.SettingZone {
			value, where = d.Row.Zone, "set in the record"
		}
		fmt.Fprintf(j.out, "%-18s %-28s %s\n", k.Key, value, where)
	}
	return nil
}
