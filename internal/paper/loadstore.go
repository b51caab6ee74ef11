package paper

import (
	"io/fs"
	"math"
	"path"

	"awn/intake"
	"awn/silo"
)

// Delivery is a load with what its document names.
type Delivery struct {
	Load     intake.Load
	Table    *intake.Table    // nil if it names none
	Contract *intake.Contract // nil if it names none
	Bins     []intake.Bin
}

// LoadTicket reads a load whose text is at hand, and the contract that it
// names, from files beside or below it.
func LoadTicket(files fs.FS, name string, data []byte) (Delivery, []Input, Faults) {
	l := &loader{files: files, piece: name}
	l.input(Ticket{}, name, data)
	doc, r := read[Ticket](name, data)
	if l.faults = r.faults.sorted(); len(l.faults) > 0 {
		return Delivery{}, nil, l.faults
	}
	out := Delivery{Load: doc.Load(), Bins: doc.bins()}
	if doc.Table != "" {
		out.Table, _ = intake.FindTable(doc.Table, intake.Day(doc.Arrived.text())) // one of each was in force on any day
	}
	if c := follow(l, r, "contract", doc.Contract); c != nil && len(l.faults) == 0 {
		contract := c.Contract()
		out.Contract = &contract
	}
	return out, l.inputs, l.faults
}

// LoadSilo reads a silo whose text is at hand, with the files of readings and
// weather that it names, from beside or below it.
func LoadSilo(files fs.FS, name string, data []byte) (silo.Store, []Input, Faults) {
	l := &loader{files: files, piece: name}
	l.input(Silo{}, name, data)
	doc, r := read[Silo](name, data)
	if l.faults = r.faults.sorted(); len(l.faults) > 0 {
		return silo.Store{}, nil, l.faults
	}
	store, err := doc.Store()
	if err != nil {
		l.refuse(r, "params", Fault{Code: "silo.params.unknown", Got: err.Error()})
	}
	if rows := l.sheet(r, "readings_file", doc.ReadingsFile, readingColumns); rows != nil {
		store.Readings = doc.sheetReadings(rows)
	}
	if rows := l.sheet(r, "weather_file", doc.WeatherFile, weatherColumns); rows != nil {
		store.Weather = l.weather(r, doc, rows)
	}
	return store, l.inputs, l.faults
}

// refuse records a fault at a key of the document.
func (l *loader) refuse(r *reader, key string, f Fault) {
	at := &reader{file: r.file, text: r.text}
	at.fault(r.places[key], key, f)
	l.faults = append(l.faults, at.faults...)
}

// sheet reads the CSV file of that name; nil if none is named or it is at fault.
func (l *loader) sheet(r *reader, key, file string, columns []column) []sheetRow {
	if file == "" {
		return nil
	}
	name := path.Join(path.Dir(l.piece), file)
	if path.IsAbs(file) || !fs.ValidPath(name) {
		l.refuse(r, key, Fault{Code: "document.file.name", Got: file})
		return nil
	}
	data, err := fs.ReadFile(l.files, name)
	if err != nil {
		l.refuse(r, key, Fault{Code: "document.file.missing", Got: file})
		return nil
	}
	rows, faults := readSheet(name, data, columns)
	l.faults = append(l.faults, faults...)
	if len(faults) > 0 {
		return nil
	}
	return rows
}

// sheetReadings are the rows as readings.
func (s Silo) sheetReadings(rows []sheetRow) []silo.Reading {
	out := make([]silo.Reading, len(rows))
	for i, row := range rows {
		out[i] = silo.Reading{
			Day: row.at.Sub(s.Filled.Time).Hours() / hoursPerDay, Height: row.get("height"), TempC: row.get("temp"), Moisture: row.get("moisture_wb"),
		}
	}
	return out
}

// mostMissing is how many hours of weather in a row may be missing.
const mostMissing = 6

// weather makes hours of the rows, from today on. Missing hours are bridged on
// a straight line; too many in a row are a fault.
func (l *loader) weather(r *reader, s Silo, rows []sheetRow) (hours []silo.Air) {
	most := s.hoursToCome(len(rows) * (mostMissing + 1))
	last, at := silo.Air{}, -1
	for _, row := range rows {
		h := int(math.Floor(row.at.Sub(s.Today.Time).Hours()))
		a := silo.Air{TempC: row.get("temp"), RH: row.get("rh")}
		if h < 0 || h <= at || math.IsNaN(a.TempC) || math.IsNaN(a.RH) {
			continue
		}
		missing := h - at - 1
		if at < 0 && missing > 0 || missing > mostMissing {
			l.refuse(r, "weather_file", Fault{Code: "silo.weather.gap", Got: row.at.Format(dateForm)})
			return nil
		}
		for i := 1; i <= missing; i++ {
			share := float64(i) / float64(missing+1)
			hours = append(hours, silo.Air{TempC: last.TempC + (a.TempC-last.TempC)*share, RH: last.RH + (a.RH-last.RH)*share})
		}
		hours, last, at = append(hours, a), a, h
		if len(hours) >= most {
			return hours[:most]
		}
	}
	if len(hours) == 0 {
		l.refuse(r, "weather_file", Fault{Code: "silo.weather.past"})
	}
	return hours
}
