package ledger

import (
	"crypto/sha256"
	"encoding/binary"
	"fmt"
	"iter"
	"slices"
)

// Head is the last fact of a record: what a certificate prints, so that a
// record that was restored and went on differently is found out.
type Head struct {
	Seq  int64
	Hash [32]byte
}

// format names the way of hashing; another way would have another name.
const format = "awn fact 1"

// Sum is the hash of the fact after a fact with the given hash (32 zero bytes
// before the first). Each field is written as its length in eight bytes, big
// end first, then its bytes; a whole number is eight bytes, big end first, in
// two's complement.
func (f Fact) Sum(previous [32]byte) [32]byte {
	b := make([]byte, 0, 256+len(f.Body))
	text := func(s string) { b = append(binary.BigEndian.AppendUint64(b, uint64(len(s))), s...) }
	number := func(n int64) { b = binary.BigEndian.AppendUint64(binary.BigEndian.AppendUint64(b, 8), uint64(n)) }
	text(format)
	text(string(previous[:]))
	text(f.House)
	number(f.Seq)
	text(f.ID)
	text(string(f.Kind))
	number(int64(f.Schema))
	number(f.At)
	number(int64(f.OffsetMin))
	number(f.Entered)
	text(f.Who)
	text(string(f.Body))
	return sha256.Sum256(b)
}

// Broken says where a record is no longer what was entered.
type Broken struct {
	Code string // record.chain.gap, record.chain.hash, record.chain.house or record.chain.head
	Seq  int64  // the first place that does not fit
	ID   string // of the fact found there, "" if there is none
}

// Error says it in English.
func (b *Broken) Error() string {
	return fmt.Sprintf("fact %d (%s): %s [%s]", b.Seq, b.ID, Sentences[b.Code], b.Code)
}

// Verify goes through the facts of one house from the first on and returns the
// head. The first link that does not hold is returned as a [*Broken]. Heads
// that are known from elsewhere, such as those printed on certificates, must
// lie on the chain.
func Verify(facts iter.Seq2[Fact, error], known ...Head) (Head, error) {
	at := make(map[int64][][32]byte, len(known)) // several may be known of one place, and not agree
	for _, k := range known {
		at[k.Seq] = append(at[k.Seq], k.Hash)
	}
	var head Head
	house := ""
	for f, err := range facts {
		if err != nil {
			return head, err
		}
		if head.Seq == 0 {
			house = f.House
		}
		other := func(h [32]byte) bool { return h != f.Hash }
		code := ""
		switch {
		case f.Seq != head.Seq+1:
			return head, &Broken{"record.chain.gap", head.Seq + 1, f.ID}
		case f.House != house:
			code = "record.chain.house"
		case f.Hash != f.Sum(head.Hash):
			code = "record.chain.hash"
		case slices.ContainsFunc(at[f.Seq], other):
			code = "record.chain.head"
		}
		if code != "" {
			return head, &Broken{code, f.Seq, f.ID}
		}
		head = Head{f.Seq, f.Hash}
		delete(at, f.Seq)
	}
	for _, k := range known {
		if _, missing := at[k.Seq]; missing && k.Seq > 0 {
			return head, &Broken{"record.chain.head", k.Seq, ""}
		}
	}
	return head, nil
}
