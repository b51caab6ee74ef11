package authority

import (
	"net"
	"net/netip"
	"os"
	"slices"
	"strings"
)

// Names are those under which a house is found that listens at a host: the name
// itself, or for all of the machine its names and local addresses.
func Names(host string, more []string) ([]string, error) {
	names := slices.Clone(more)
	add := func(n string) {
		if n = strings.ToLower(strings.TrimSuffix(n, ".")); n != "" && !slices.Contains(names, n) {
			names = append(names, n)
		}
	}
	if a, err := netip.ParseAddr(host); host != "" && (err != nil || !a.IsUnspecified()) {
		add(host)
		return names, nil
	}
	if name, err := os.Hostname(); err == nil {
		add(name)
		if !strings.Contains(name, ".") {
			add(name + ".local")
		}
	}
	add("localhost")
	all, err := net.InterfaceAddrs()
	for _, a := range all {
		if p, err := netip.ParsePrefix(a.String()); err == nil {
			if ip := p.Addr().Unmap(); ip.IsPrivate() || ip.IsLoopback() {
				add(ip.String())
			}
		}
	}
	return names, err
}
