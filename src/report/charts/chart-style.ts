/**
 * Looks of every chart, for the page that shows them. Colours come from custom properties of that page, with light
 * fall-backs; shapes, dashes and words carry the same meaning as the colours.
 */
export const chartStyle = `
svg.chart { font: 12px/1.2 system-ui, sans-serif; }
svg.chart text { fill: var(--ink, #17211f); stroke: none; }
svg.chart .axis, svg.chart .grid { font: inherit; }
svg.chart .axis path, svg.chart .axis line { stroke: var(--line-strong, #75837e); fill: none; }
svg.chart .axis text, svg.chart .axis-name, svg.chart .legend text { font-size: 12px; }
svg.chart .axis-name, svg.chart .empty-note, svg.chart .count-name, svg.chart .count { fill: var(--quiet, #51605b); }
svg.chart .count, svg.chart .count-name { font-size: 11px; }
svg.chart .grid line, svg.chart .axis .grid-line { stroke: var(--line, #cbd4d0); }
svg.chart .grid path { stroke: none; }
svg.chart path { fill: none; }
svg.chart .to-larger .point, svg.chart path.to-larger { fill: var(--larger, #1a5f9e); stroke: var(--larger, #1a5f9e); }
svg.chart .to-larger .interval { stroke: var(--larger, #1a5f9e); stroke-width: 1.5; }
svg.chart .to-smaller .point, svg.chart path.to-smaller { fill: var(--smaller, #a65a00); stroke: var(--smaller, #a65a00); stroke-width: 1.6; }
svg.chart .to-smaller .interval { stroke: var(--smaller, #a65a00); stroke-width: 1.5; }
svg.chart .before .point, svg.chart path.before { fill: var(--panel, #fff); stroke-width: 1.6; }
svg.chart .before .interval, svg.chart .interval.dashed { stroke-dasharray: 2 2; }
svg.chart .interval.quiet { stroke: var(--quiet, #51605b); stroke-width: 1.5; }
svg.chart .none path, svg.chart path.none { stroke: var(--quiet, #51605b); stroke-width: 1.5; }
svg.chart .counts.event .count { fill: var(--ink, #17211f); font-weight: 600; }
svg.chart .few { opacity: 0.72; }
svg.chart .fault .bar { fill: var(--trouble, #a2390a); }
svg.chart .no-fault .bar { fill: var(--fine, #17635f); }
svg.chart .actual .point, svg.chart path.actual.point { fill: var(--actual, #1a5f9e); stroke: none; }
svg.chart .actual .interval { stroke: var(--actual, #1a5f9e); stroke-width: 1.5; }
svg.chart .trend-line { stroke: var(--actual, #1a5f9e); stroke-width: 1.5; }
svg.chart .band { fill: var(--actual, #1a5f9e); fill-opacity: 0.18; stroke: none; }
svg.chart .zero { stroke: var(--ink, #17211f); stroke-dasharray: 4 3; }
svg.chart .adjusted-line { stroke: var(--ink, #17211f); stroke-dasharray: 2 3; }
svg.chart .adjusted-wedge { fill: var(--ink, #17211f); stroke: none; }
svg.chart .actual-line { stroke: var(--actual, #1a5f9e); stroke-width: 2.4; }
svg.chart .commanded-line { stroke: var(--commanded, #4c5a56); stroke-width: 1.1; stroke-dasharray: 4 2; }
svg.chart .lost-band { fill: var(--trouble, #a2390a); fill-opacity: 0.14; stroke: var(--trouble, #a2390a); stroke-width: 1; stroke-dasharray: 2 2; }
svg.chart .event path, svg.chart path.event { stroke: var(--trouble, #a2390a); stroke-width: 1.8; fill: var(--panel, #fff); fill-opacity: 0.85; }
svg.chart .event.drop path, svg.chart path.event.drop { fill: var(--trouble, #a2390a); }
`;
