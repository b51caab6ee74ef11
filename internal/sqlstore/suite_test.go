package sqlstore_test

import (
	"testing"

	"awn/internal/sqlstore/storetest"
)

func TestBothDatabases(t *testing.T) { storetest.Suite(t) }
