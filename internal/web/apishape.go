package web

import "strings"

// answers are the results of the answers of the record, by their kinds. A field
// is a name and what it is: s a text, i a whole number, n a number, b a truth,
// o an object, s* texts, i* and n* numbers; [ ] are a list of objects and { } one. A name with a
// question mark may be absent.
var answers = map[string]string{
	"stock/1":        "head{ " + headFields + " } at_ms:i places[ " + heldFields + " ] unexplained[ " + unexplainedFields + " ] shaken[ id:s kind:s seq:i ]",
	"deliveries/1":   "deliveries[ delivery:s seq:i at_ms:i place:s net_kg:n moisture_wb?:n grower?:s grown?:s variety?:s ticket?:s ] next?:s",
	"pieces/1":       "pieces[ " + pieceFields + " ] next?:s",
	"piece-record/1": "piece:s state:s holds{ dry_kg_dm:n water_kg:n } facts[ " + factFields + " ] results[ " + resultFields + " ] came?:o",
	"lots/1":         "lots[ lot:s seq:i leave?:s results[ " + resultFields + " ] ] next?:s",
	"shipments/1":    "shipments[ shipment:s seq:i at_ms:i receiver:s net_kg:n from[ place:s net_kg:n ] vehicle?:s seal?:s ] next?:s",
	"certificates/1": "certificates[ certificate:s seq:i at_ms:i of:s* document_sha256:s replaces?:s ] next?:s",
	"facts/1":        "facts[ seq:i id:s kind:s schema:i at_ms:i entered_ms:i who:s body:o ] next?:s",
	"people/1":       "people[ id:s name:s role?:s contact?:s ] next?:s",
	"thing/1":        "thing:s traced:b leave?:s drawn?:s state?:s facts[ " + factFields + " ] results[ " + resultFields + " ]",
	"trace/1": "thing:s order:s head{ " + headFields + " } took_ms:i sources[ origin:s share:n least:n most:n dry_kg_dm:n grower?:s grown?:s variety?:s ] " +
		"mixed[ quantity:s mean:n least:n most:n partly:b ] lots[ " + lotFields + " ] " +
		"holders[ place:s dry_kg_dm:n least_kg_dm:n most_kg_dm:n fresh_kg:n held_kg:n receiver?:s contact?:s vehicle?:s ]",
	"balance/1": "from_ms:i to_ms:i lines[ line:s dry_kg_dm:n water_kg:n ] made[ line:s dry_kg_dm:n water_kg:n ] unexplained[ " + unexplainedFields + " ] off_kg:n",
	"due/1":     "due[ " + dueFields + " ]",
	"handover/1": "since_ms:i head{ " + headFields + " } pieces[ " + pieceFields + " ] did[ " + factFields + " ] held[ " + heldFields + " ] " +
		"alarms[ " + unexplainedFields + " ] due[ " + dueFields + " ] given?{ id:s who:s at_ms:i }",
	"assurance/1": "pieces[ piece:s complete:b head{ " + headFields + " } points[ point:s thing:s quantity:s missing:b open:b least?:n most?:n " +
		"readings[ value:n less:b lab?:s method?:s ] decisions[ id:s kind:s at_ms:i who:s ] ] ]",
	"complaint/1": "lot:s claims[ quantity:s value:n by_test?:n moved?:s found[ value:n less:b lab?:s method?:s ] ] kept[ sample:s where?:s ] " +
		"made[ lot:s vessel:s kind:s results[ quantity:s value:n ] ] holders[ place:s dry_kg_dm:n receiver?:s contact?:s ]",
	"series-list/1": "series[ " + watchedFields + " ]",
	"series/1":      watchedFields + " from_ms:i to_ms:i every_ms:i gap_ms:i stretches{ at_ms:i* readings:i* least:n* mean:n* most:n* }",
	"weeks/1": "runs[ piece?:s intention?:s order?:s legs[ road:s vessel:s begun:b ended:b " + momentFields("from") + momentFields("to") + "] ] " +
		"orders[ order:s due_ms?:i in_time?:n " + momentFields("ready") + "] clashes[ vessel:s road:s first:s second:s from_ms:i certain:b ] gaps[ vessel:s road:s from_ms:i to_ms:i ]",
	"settings/1":  "settings:o",
	"documents/1": "documents[ kind:s own:b name?:s sha256?:s ]",
	"formulas/1":  "formulas[ key:s signature:s summary:s text:s standing:s source?:s valid?:s check?:s note?:s ] next?:s",
	"entries/2":   "entries[ name:s title:s subject:s inputs[ key:s says:s must:b units?:s* default?:s ] examples:s* ] next?:s",
}

// Fields that several answers have.
const (
	headFields        = "seq:i hash:s"
	factFields        = "seq:i id:s kind:s at_ms:i who:s struck:b body:o"
	resultFields      = "quantity:s value:n less:b method?:s lab?:s"
	lotFields         = "lot:s share:n least:n most:n piece?:s"
	pieceFields       = "piece:s seq:i state:s vessel:s at_ms:i cast_kg:n"
	heldFields        = "place:s dry_kg_dm:n water_kg:n overdrawn:b leave?:s drawn?:s state?:s lots?[ " + lotFields + " ]"
	unexplainedFields = "place:s month:s gap_kg_dm:n alarm:b limit:n share?:n chance?:n"
	watchedFields     = "series:s quantity:s unit:s first_ms:i last_ms:i readings:i last:n"
	dueFields         = "key:s role:s due_ms:i late_h:n every_d:i thing?:s"
)

// momentFields are a moment that may not be known, with the tenths on both sides
// of it.
func momentFields(key string) string {
	return key + "_ms?:i " + key + "_p10_ms?:i " + key + "_p90_ms?:i "
}

// fieldKinds are what the letters mean.
var fieldKinds = map[string]shape{
	"s": {"type": "string"}, "i": {"type": "integer"}, "n": {"type": "number"}, "b": {"type": "boolean"}, "o": {"type": "object"},
	"s*": {"type": "array", "items": shape{"type": "string"}}, "i*": {"type": "array", "items": shape{"type": "integer"}}, "n*": {"type": "array", "items": shape{"type": "number"}},
}

// answerSchema is that of an answer whose fields are written down here; nil of
// others.
func answerSchema(kind string) shape {
	if kind == entryKind {
		one, _ := objectOf(strings.Fields("awn:s seq:i id:s kind:s again:b said:s notes:s*"))
		return one
	}
	fields, found := answers[kind]
	if !found {
		return nil
	}
	result, _ := objectOf(strings.Fields(fields))
	return shape{
		"type": "object", "required": []string{"awn", "program", "model", "result"},
		"properties": shape{
			"awn": shape{"const": kind}, "program": shape{"type": "string"}, "model": shape{"type": "integer"}, "result": result,
			"inputs": shape{"type": "array"}, "findings": shape{"type": "array"},
		},
	}
}

// entryKind is the kind of the answer to an entry, which has no envelope.
const entryKind = "entry/1"

// objectOf is an object of fields, up to the bracket that ends it, and what comes
// after that.
func objectOf(fields []string) (shape, []string) {
	properties, must := shape{}, []string{}
	for len(fields) > 0 {
		field := fields[0]
		fields = fields[1:]
		if field == "]" || field == "}" {
			break
		}
		name, kind, _ := strings.Cut(field, ":")
		var one shape
		switch {
		case strings.HasSuffix(field, "["):
			one, fields = objectOf(fields)
			name, one = strings.TrimSuffix(field, "["), shape{"type": "array", "items": one}
		case strings.HasSuffix(field, "{"):
			one, fields = objectOf(fields)
			name = strings.TrimSuffix(field, "{")
		default:
			one = fieldKinds[kind]
		}
		name, optional := strings.CutSuffix(name, "?")
		if properties[name] = one; !optional {
			must = append(must, name)
		}
	}
	return shape{"type": "object", "required": must, "properties": properties}, fields
}

// schemaName is the name of an answer among the parts of the document.
func schemaName(kind string) string { return strings.ReplaceAll(kind, "/", "-") }
