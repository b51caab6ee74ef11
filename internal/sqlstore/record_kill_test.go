package sqlstore_test

import (
	"bufio"
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"
	"time"

	"awn/internal/sqlstore"
	"awn/internal/sqlstore/storetest"
	"awn/ledger"
)

// enterWithoutEnd appends pairs of facts that belong together and prints the
// number of each pair once it is acknowledged.
func enterWithoutEnd(db *sqlstore.DB, start string) int {
	first, err := strconv.ParseInt(start, 10, 64)
	for n := first; err == nil; n += 2 {
		_, err = storetest.Enter(context.Background(), db, storetest.Draft(n, storetest.Receipt("L26-0001", 10)),
			storetest.Draft(n+1, &ledger.Move{From: "silo:B7", To: "silo:B8", Amount: storetest.Weighed(10)}))
		if err == nil {
			fmt.Println(n)
		}
	}
	fmt.Fprintln(os.Stderr, err)
	return 1
}

// rounds of killing: more in the second tier, where AWN_ROUNDS says how many.
func rounds(t *testing.T) int {
	n, err := strconv.Atoi(os.Getenv("AWN_ROUNDS"))
	if err != nil {
		n = 6
	}
	t.Logf("%d rounds, of two programs each", n)
	return n
}

// TestKilledWhileEntering: two programs enter into one record and are killed
// at a moment nobody chose. What was acknowledged is there, nothing is there
// by half, the chain holds.
func TestKilledWhileEntering(t *testing.T) {
	storetest.EachURL(t, func(t *testing.T, address string) {
		storetest.Open(t, address).Close()
		acknowledged := map[int64]bool{}
		for round := range rounds(t) {
			done := make(chan []int64)
			for program := range 2 {
				start := int64(1 + 2*(round*2+program)*1_000_000)
				go func() { done <- killed(t, address, start) }()
			}
			for range 2 {
				for _, n := range <-done {
					acknowledged[n] = true
				}
			}
		}
		db := storetest.Open(t, address)
		head := storetest.Sound(t, db)
		if head.Seq%2 != 0 {
			t.Errorf("%d facts: a pair is there by half", head.Seq)
		}
		for n := range acknowledged {
			if _, found, err := db.Read("hallow").Fact(t.Context(), storetest.Draft(n, storetest.Receipt("X", 1)).ID); err != nil || !found {
				t.Errorf("fact %d was acknowledged and is gone: %v", n, err)
			}
		}
		t.Logf("%d pairs acknowledged, %d facts", len(acknowledged), head.Seq)
		if len(acknowledged) == 0 {
			t.Error("nothing was acknowledged, so nothing was tried")
		}
	})
}

// killed runs a program that enters facts, kills it after its first
// acknowledgement and a moment of chance, and returns what it acknowledged.
func killed(t *testing.T, address string, start int64) (acknowledged []int64) {
	cmd := run(t, os.Args[0], fmt.Sprint("facts ", start), address)
	cmd.Dir = t.TempDir()
	out, err := cmd.StdoutPipe()
	if err == nil {
		err = cmd.Start()
	}
	if err != nil {
		t.Error(err)
		return nil
	}
	lines := bufio.NewScanner(out)
	for lines.Scan() {
		n, err := strconv.ParseInt(lines.Text(), 10, 64)
		if err != nil {
			break // cut in the middle of a line
		}
		if len(acknowledged) == 0 {
			time.AfterFunc(time.Duration(rand.IntN(60))*time.Millisecond, func() { cmd.Process.Kill() })
		}
		acknowledged = append(acknowledged, n)
	}
	cmd.Wait() // it was killed
	return acknowledged
}
