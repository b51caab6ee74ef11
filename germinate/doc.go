// Package germinate grows the piece: a bed of wet corns that breathe, warm the
// air that is drawn through them, dry, are turned and sprayed, and turn from
// barley into green malt.
//
// A Run holds the bed as layers. Each carries dry matter, water and enthalpy;
// temperature is read off them. Air is marched up through the layers and leaves
// each in equilibrium with its grain, for a germinating bed is deep in transfer
// units. Oxygen and carbon dioxide are carried in the air and in the voids of
// each layer, and corns burn no more oxygen than reaches them.
//
// The air under the bed is made, not wished: fresh and return air are mixed,
// the fan warms them at its place, humidifier, coil and heater have limits. What
// the programme asks for is met as far as they can, and the account says how far.
//
// What has grown is told by one number a corn carries, its growth age in days at
// 16 °C and 45 %. The formulas in modification.go turn it into the figures of a
// malt analysis, and Modification gathers them over classes and layers.
package germinate
