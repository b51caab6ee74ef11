package targets

import "testing"

// TestExpired holds what the go command printed when the time of a run was
// over against what it prints when an input fails.
func TestExpired(t *testing.T) {
	const over = "fuzz: elapsed: 4s, execs: 70588 (0/sec), new interesting: 58 (total: 104)\n--- FAIL: FuzzX (4.04s)\n    context deadline exceeded\nFAIL\n"
	const found = "--- FAIL: FuzzX (0.04s)\n    --- FAIL: FuzzX (0.00s)\n        x_test.go:9: refused\n    \n    Failing input written to testdata/fuzz/FuzzX/771e938e4458e983\nFAIL\n"
	for out, want := range map[string]bool{
		over: true, found: false, over + found: false,
		"--- FAIL: FuzzX (1.02s)\n    fuzzing process hung or terminated unexpectedly: exit status 2\n": false,
		"ok  \tx\t3.118s\n": false,
	} {
		if got := expired([]byte(out)); got != want {
			t.Errorf("expired is %v of:\n%s", got, out)
		}
	}
}
