package leaflet

type measures struct{}
