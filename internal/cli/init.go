package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"awn/examples"
)

type initCommand struct {
	Dir string `arg:"" placeholder:"DIR" help:"Folder to write to."`
}

// Help says what is written.
func (c *initCommand) Help() string {
	return `  awn init hallow
  awn malt hallow/` + examples.First + `

Writes an invented malthouse with its lots, programmes, specifications and
pieces. Nothing is ever overwritten.`
}

// Run writes the examples, all or none.
func (c *initCommand) Run(j *job) error {
	names, err := exampleNames()
	if err != nil {
		return err
	}
	for _, name := range names {
		file := c.file(name)
		if _, err := os.Lstat(file); err == nil {
			return &refusal{fmt.Errorf("%s is there already; nothing was written. Name a folder that has none of the examples", file)}
		} else if !errors.Is(err, fs.ErrNotExist) {
			return err
		}
	}
	for _, name := range names {
		if err := c.write(name); err != nil {
			return err
		}
		fmt.Fprintln(j.out, c.file(name))
	}
	j.note("awn: %s written. Next: awn malt %s", counted(len(names), "file"), c.file(examples.First))
	return nil
}

// exampleNames lists the documents that are built in.
func exampleNames() ([]string, error) {
	var names []string
	err := fs.WalkDir(examples.Files, ".", func(name string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			names = append(names, name)
		}
		return err
	})
	return names, err
}

// file is where an example is written.
func (c *initCommand) file(name string) string { return filepath.Join(c.Dir, filepath.FromSlash(name)) }

// write writes one example. A file that came to be there since is left alone.
func (c *initCommand) write(name string) error {
	data, err := fs.ReadFile(examples.Files, name)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(filepath.Dir(c.file(name)), 0o777); err != nil {
		return err
	}
	f, err := os.OpenFile(c.file(name), os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	return errors.Join(err, f.Close())
}
