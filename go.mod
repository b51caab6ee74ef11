module awn

go 1.26
