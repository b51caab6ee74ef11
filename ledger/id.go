package ledger

import "encoding/hex"

// ID makes a UUID of version 7 from a time in ms UTC and ten random bytes.
func ID(ms int64, random [10]byte) string {
	var b [16]byte
	for i := range 6 {
		b[i] = byte(ms >> (8 * (5 - i)))
	}
	copy(b[6:], random[:])
	b[6] = b[6]&0x0f | 0x70
	b[8] = b[8]&0x3f | 0x80
	h := hex.EncodeToString(b[:])
	return h[:8] + "-" + h[8:12] + "-" + h[12:16] + "-" + h[16:20] + "-" + h[20:]
}

// isID reports whether a text is a UUID of version 7 in small letters.
func isID(s string) bool {
	if len(s) != 36 {
		return false
	}
	for i := range len(s) {
		c := s[i]
		switch i {
		case 8, 13, 18, 23:
			if c != '-' {
				return false
			}
		default:
			if (c < '0' || c > '9') && (c < 'a' || c > 'f') {
				return false
			}
		}
	}
	return s[14] == '7' && (s[19] == '8' || s[19] == '9' || s[19] == 'a' || s[19] == 'b')
}
