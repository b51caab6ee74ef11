package paper

import "io/fs"

// Files are documents at hand, by their names.
type Files map[string][]byte

// Open is here for fs.FS; everything is read whole.
func (f Files) Open(name string) (fs.File, error) {
	return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrInvalid}
}

// ReadFile reads one file.
func (f Files) ReadFile(name string) ([]byte, error) {
	if data, ok := f[name]; ok {
		return data, nil
	}
	return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
}
