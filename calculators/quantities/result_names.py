"""The rows of the nomenclature: name | unit | description, a result a line."""

ROWS = """
major_diameter | mm | basic diameter over the threads
pitch_diameter | mm | basic diameter where thread and space are equally wide
minor_diameter | mm | basic diameter at the roots, of the nut
pitch | mm | distance from one thread to the next
threads_per_inch | 1/in | threads in one inch of length
thread_angle | deg | angle between the flanks
tapping_drill | mm | drill for the tap, at the engagement stated
clearance_close | mm | clearance hole of the close (fine) series
clearance_medium | mm | clearance hole of the medium series
clearance_free | mm | clearance hole of the free (coarse) series
tensile_stress_area | mm2 | area that carries the load
hole | mm | hole before tapping
drill | | the drill, by its name
drill_diameter | mm | diameter of that drill
engagement | % | thread engaged: a share of the full depth on the basis stated, or a length where it says mm
candidates | | threads that fit the measurement, best first
verdict | | what it comes to
pitch_error | mm | difference of pitch summed over the engagement
flank_overlap | mm | how deep the flanks overlap
diameter | mm | diameter
diameter_inches | in | the same diameter in inches
thickness | mm | thickness of the sheet, or diameter of the wire
thickness_inches | in | the same in the inches that define it
shank_diameter | mm | diameter of the plain shank
root_diameter | mm | diameter at the root of the thread
head_diameter | mm | diameter of the head
head_height | mm | height of the countersunk head
head_angle | deg | angle of the countersunk head
clearance_hole | mm | hole through the part under the head
pilot_softwood | mm | pilot hole in softwood
pilot_hardwood | mm | pilot hole in hardwood
depth | mm | depth of the countersink, from the face to where the cone meets the hole
left | mm | thickness left under the cone; less than nought where it breaks through
breaks_through | | whether the cone comes out at the other face
length_needed | | shortest and longest screw that does the work
length | mm | stock length chosen
holes | | holes by layer: lengths in mm, angles in deg
penetration | mm | thread in the last layer
protrusion | mm | thread beyond the nut
findings | | what is wrong, and what would mend it
withdrawal | N | ultimate load along the screw
working_load | N | load along the screw with its factor of safety
lateral | N | load across the screw
rate | N/mm | load for each millimetre of travel, or moment for each degree
load | N | load
stress | MPa | stress
solid_length | mm | length with all coils closed
buckles | | whether the spring bends out sideways
balance_angle | deg | angle at which the moments balance
stiffness | N m/deg | moment for each degree
travel | deg | angle between the stops
curve | | moment at each angle
tension | N | tension
deflection | mm | how far it bends
bending_stress | MPa | greatest stress in bending
torque | N m | tightening torque
preload | N | tension in the bolt
strip_load_bolt | N | load that strips the thread of the bolt
strip_load_nut | N | load that strips the thread of the nut
break_load | N | load that breaks the bolt
engagement_needed | mm | thread engaged at which the bolt breaks before the thread strips
positions | | places of the holes
chord | mm | straight distance from hole to hole
corners | | how the corners of the recess are treated
passes | | how many passes the cutter needs
cutter | mm | cutter that fits
allowance | mm | length of material in the bend
deduction | mm | what the bend takes off the sum of the outside lengths
flat_length | mm | length of the flat blank
volume | m3 | volume
board_feet | board ft | volume in board feet
mass | kg | mass
plan | | bars or sheets and what is cut from each
bars | 1 | bars used
sheets | 1 | sheets used
cost | | cost of the stock used, in the money of the prices given
waste_percent | % | share of the stock that becomes no part
lower_bound | | less than this is impossible
proved | | whether nothing cheaper exists
value | | the value in the unit asked for
fraction | | nearest fraction of an inch
error | mm | that size less the length asked for
below | mm | next smaller size
nearest | mm | nearest size
above | mm | next larger size
moisture_content | % | moisture of the wood, of its oven-dry mass
moisture_weighed | % | moisture of the sample weighed
moisture_change | % | change of moisture from now to that room
humidity | % | relative humidity of the air
movement | mm | change of the width; less than nought where it shrinks
width_after | mm | the width then
movement_coefficient | 1 | change of width for each percent of moisture, as a fraction
edge_movement | mm | how far the edge that lies farther from where it is held moves
slot_length | mm | slot that lets the screw there follow the wood
finished_volume | m3 | volume of the finished pieces
finished_mass | kg | mass of the finished pieces
to_order | | the sawn sizes to have before planing
centre_x | mm | where it balances, along x
centre_y | mm | where it balances, along y
centre_z | mm | where it balances, along z
inertia | kg mm2 | moment of inertia about the axis through the pivot
inertia_own | kg mm2 | moment of inertia about the same axis through its own centre
moment_at_pivot | N m | moment of its weight about the pivot; more than nought turns the +x side down
land | mm | material left between neighbouring holes
chords | | distances from a hole to the next, the next but one and so on, to check by
rounding | mm | how far rounding to a hundredth of a millimetre moves a hole at most
hole_least | mm | least size of the hole
hole_most | mm | greatest size of the hole
shaft_least | mm | least size of the shaft
shaft_most | mm | greatest size of the shaft
clearance_least | mm | least clearance; less than nought where they interfere
clearance_most | mm | greatest clearance
fit | | clearance, transition or interference
interference | mm | how much the bush is larger than the bore
pressure | MPa | pressure between bush and housing
bore_closing | mm | how far the bush's own bore closes
bore_after | mm | the bush's bore after pressing
press_force | N | force to press it in, at the end
bush_stress | MPa | squeeze at the bush's bore
housing_stress | MPa | pull round the bore of the housing
running_clearance | mm | bore after pressing less the shaft
warming | | how much warmer the housing must be for the bush to drop in
speed | rpm | turns to set
rim_speed | m/min | speed of the cutting edge then
feed_per_turn | mm | feed for each turn
feed | mm/min | feed
cutting_time | s | time for that depth
likeliest | | the likeliest of them
possible | | all threads that the measurement leaves possible
tells_apart | | what would separate the two likeliest
pitch_uncertainty | mm | how far the pitch may be off
uncertainty | mm | how far the diameter may be off
diameter_difference | mm | diameter as measured less the basic one
why | | why so
pitch_difference | mm | pitch of the screw less that of the nut
threads_engaged | 1 | threads of the screw in the nut
flank_share | % | overlap of the flanks, as a share of what the shallower thread has
axial_freedom | mm | freedom along the axis at basic sizes
axial_play | mm | play along the axis of an ordinary screw and nut; less than nought where they foul
turns_to_bind | 1 | turns until an ordinary screw and nut bind
at_sizes | | sizes, play and turns until it binds: basic, tightest, ordinary, slackest; in mm
best_wire | mm | wire that touches at the pitch line
least_wire | mm | smallest wire, level with the crest
most_wire | mm | largest wire, touching where the straight flank ends
wire_used | mm | wire that the readings are for
reading_basic | mm | reading over the wires at the basic pitch diameter
reading_least | mm | reading over the wires of the smallest screw
reading_most | mm | reading over the wires of the largest screw
lead_angle | deg | slope of the thread at the pitch diameter
lead_correction | mm | what that slope adds to the reading
measured_pitch_diameter | mm | pitch diameter from the reading
pitch_diameter_off | mm | that less the basic pitch diameter
pitch_diameter_growth | mm | what the coating adds to the screw's pitch diameter
nut_growth | mm | what the nut's coating takes off its pitch diameter
major_diameter_growth | mm | what the coating adds to the screw's major diameter
thread_allowance | mm | what the screw's pitch diameter is below basic at most metal
room_left | mm | allowance left by the coatings; less than nought where it is overdrawn
greatest_coating | mm | thickest coating of the screw that the allowance takes
cut_to | mm | largest pitch diameter before plating that is basic after it
area | m2 | surface
litres | l | finish for all coats
tins | 1 | tins to buy
glue | g | glue
rehearsal_longest | min | longest that the dry rehearsal may take
cost_each | | cost of one piece
cost_of_material | | material with what is added
cost_of_work | | hours at their rate
cost_lines | | cost of each stock
growth | mm | how much it grows; less than nought where it shrinks
growth_apart | mm | how much more than the other material
winding_moment | N mm | moment at which a torsion spring is wound up so far
stress_limit | MPa | stress that the wire may bear
stress_share | % | stress as a share of that limit
working_travel | mm | how far it is pressed or pulled from its free length
travel_left | mm | travel left until the coils close, or until the body is overstretched
travel_left_percent | % | that as a share of all travel
longest_length | mm | length at which the body reaches its limit of stress
turns | 1 | turns by which it is wound up
longest_angle | deg | angle at which the wire reaches its limit of stress
spring_index | 1 | mean diameter of the coil by the wire's
mean_diameter | mm | mean diameter of the coil
outside_diameter | mm | outside diameter of the coil
inside_diameter | mm | inside diameter of the coil
active_coils | 1 | coils that spring
total_coils | 1 | coils as counted, without hooks or legs
free_length | mm | length without load; of an extension spring inside the hooks
coil_pitch | mm | from coil to coil without load
lift_angle | deg | angle at which the wire climbs without load
initial_tension | N | pull at which the coils begin to open
initial_stress | MPa | uncorrected stress of the initial tension
initial_tension_usual | N | range of the initial tension that is usually wound at this index
hook_bending_stress | MPa | stress in the hook where it is bent most
hook_bending_share | % | that as a share of what the hook may bear
hook_torsion_stress | MPa | stress where the hook rises from the coil
hook_torsion_share | % | that as a share of what the hook may bear
inside_diameter_wound | mm | inside diameter when it is wound up
mandrel_clearance | mm | room about the rod within the coil, on the diameter
wound_length | mm | length of the coils when it is wound up
solid_load | N | load at which the coils close
solid_stress | MPa | corrected stress with the coils closed
outside_diameter_solid | mm | outside diameter with the coils closed: it grows as it is pressed
slenderness | 1 | free length by diameter, times the coefficient of its seating
slenderness_limit | 1 | slenderness up to which it never buckles
critical_travel | mm | travel at which it buckles, if nothing guides it
stress_factor | 1 | factor for the curvature of the wire
stress_factor_name | | whose factor that is
tensile_strength | MPa | least tensile strength of the wire
natural_frequency | Hz | lowest frequency at which the coils surge by themselves
wire_length | mm | wire in the spring, hooks or legs included
sensitivity | | how the rate changes when one dimension is off and the others hold
rests_on | | what the lever comes to rest on
low_end | deg | how far it goes clockwise, less than nought
high_end | deg | how far it goes anticlockwise
travel_ends | | what stops it each way
equilibria | | every angle at which nothing turns it, with its stiffness
spring_lengths | | length of each spring at rest and at both ends
spring_forces | | pull of each spring at rest and at both ends; less than nought is a push
pivot_reaction | N | force of the pivot on the lever at rest
pivot_reaction_angle | deg | direction in which the pivot pushes
friction_moment | N m | moment that friction in the pin holds, to either side
dead_zone | deg | angles between which friction holds it wherever it is put
natural_period | s | time of one small swing to and fro, without damping
preload_change | | what one turn, or one millimetre, of a spring's anchor does
balance_shifts | | how far the balance turns for a little more of each dimension
swing_low | deg | clockwise angle at which the flank of the edge lies on the V
swing_high | deg | anticlockwise angle at which the flank of the edge lies on the V
stop_angle_low | deg | angle of the clockwise stop
stop_angle_high | deg | angle of the anticlockwise stop
swing_left | deg | least angle from a stop to the flank; less than nought where the edge rides up first
line_load | N/mm | load on each line of contact
contact_width | mm | width of the strip that touches
contact_pressure | MPa | greatest pressure there
pressure_limit | MPa | pressure at which the softer of the two begins to take a flat
pressure_share | % | greatest pressure as a share of that
spacing | mm | distance from one hole or piece to the next
row_spacing | mm | distance from one row to the next
running | mm | distances of the holes from the one end
chain_error | mm | how far the last may be off where each is measured from the one before, all errors one way
chain_error_likely | mm | the same where errors fall by chance
datum_error | mm | how far each may be off where all are measured from one datum
gap | mm | equal gap between the pieces
marks | mm | where each piece begins and ends, from the one end
allowable_load | N | load along the screw by the older American rule, with its own margin
governs | | what bounds the working load
lateral_allowable | N | load across the screw with the rule's margin
screw_tension | N | load that breaks the screw itself
head_pull_through | N | allowable load before the head is drawn through the side piece
head_crushing | N | load at which the wood under the head begins to crush
specific_gravity | 1 | ovendry mass over the volume at 12 % moisture, relative to water
pilot_recommended | mm | pilot hole to begin with
depth_for_full_lateral | mm | penetration at which the whole load across the screw counts
end_distance_needed | mm | from the screw to the end of the piece, at least
end_distance_loaded | mm | the same to the end that the load pushes towards
edge_distance_needed | mm | from the screw to the edge of the piece, at least
bearing_pressure | MPa | pressure on the wood
bearing_area | mm2 | area that presses on the wood
bearing_strength | MPa | compression of the wood across the grain at its proportional limit
bearing_share | % | pressure, of that strength
preload_allowed | N | greatest tension in the bolt that leaves the margin
torque_allowed | N m | greatest tightening torque that leaves the margin
washer_that_bears | | smallest washer of the tables that leaves the margin
washer_outside_needed | mm | outside diameter of a washer that leaves the margin
washer_thickness_needed | mm | thickness at which the washer does not dish
washers | | washers of the tables with what the wood bears under each
preload_least | N | tension in the bolt at the lower end of the scatter
preload_most | N | tension in the bolt at the upper end of the scatter
proof_load | N | tension that the bolt bears without lasting stretch
proof_share | % | tension, of the proof load
shear_stress | MPa | stress of twisting in the screw
combined_stress | MPa | tension and twisting together
yield_share | % | tension and twisting together, of the yield strength
torque_by_friction | N m | tightening torque from pitch and friction
nut_factor_by_friction | 1 | nut factor that this torque amounts to
fails_first | | what gives way first
shear_area_bolt | mm2 | area of the bolt's thread that shears
shear_area_nut | mm2 | area of the nut's thread that shears
engagement_in_diameters | 1 | the engagement needed, in diameters
engagement_rule | mm | engagement by the bench rule
engagements | | engagement needed in each metal
twist_off_torque | N m | torque at which the skin of the root reaches the shear strength
twist_off_most | N m | torque at which the whole root shears
driving_torque_most | N m | greatest torque to drive with
breaking_torque | N m | least breaking torque by the standard
point_force | N | force of the grub screw's point on the shaft
holding_torque | N m | torque that the grub screws hold by friction
holding_force | N | the same as a force along or round the shaft
seated_torque | N m | torque that shears the points where they are seated in the shaft
holding_tabled | N | tabled holding power of a cup point of that size, fully tightened
arc_radius | mm | radius of the arc
arc_height | mm | height of the arc over the middle of its chord
arc_angle | deg | angle that the arc spans at its centre
arc_length | mm | length along the arc
arc_area | mm2 | area between arc and chord
ordinates | mm | heights over the chord at even stations
taper_rate | 1 | growth of the diameter or width for each unit of length
included_angle | deg | angle between the two sides
half_angle | deg | angle of each side from the axis
taper_per_foot | 1 | the same in inches for a foot
one_in | 1 | length in which it grows by one; none where there is no taper
large_end | mm | at the large end
small_end | mm | at the small end
taper_length | mm | from end to end
tailstock_offset | mm | how far the tailstock is set over, between centres
fence_offset | mm | how far one side is set over, the other staying straight
mitre_angle | deg | crosscut from square
blade_tilt | deg | tilt of the blade from upright, for mitred edges
corner_angle | deg | angle between the faces of two sides
butt_tilt | deg | tilt of the blade where one side is butted against the other
true_lean | deg | lean from upright along the sight line
sight_line | deg | direction of that lean from the length of the piece
leg_length | mm | length along the leg
foot_along | mm | how far the foot stands out along the piece
foot_across | mm | how far the foot stands out across the piece
setback | mm | from the outside corner to where the bend begins
k_factor | 1 | where the neutral line lies, as a share of the thickness from the inside
least_radius | mm | least inside radius that is usual
hole_to_bend | mm | least distance from a hole's edge to the inside of the other leg
bend_lines | mm | where each bend begins and ends on the flat blank, from its first edge
by_other_rules | mm | material in the bend by each of the usual rules
ways | mm | ways to make the part seat
overlap | mm | how far the part's corner reaches into the round one; less than nought is clear
slop_needed | mm | clearance on each side with which the corner would just clear
pass_depth | mm | depth of each pass
recess_length | mm | length of the recess
recess_width | mm | width of the recess
recess_depth | mm | depth of the recess
floor_left | mm | thickness left under the recess
bush_offset | mm | template's edge beyond the cut, on each side
template_length | mm | length of the opening in the template
template_width | mm | width of the opening in the template
springs_shared | | what each spring bears and how far it moves
first_solid | | which spring is solid first
first_solid_load | N | load on all at which that one is solid
wire_diameter | mm | diameter of the wire
spring_choices | | springs that do it, best first
ranking | | what the list is ranked by
sizes_excluded | | sizes of wire that do not do it, and why
worst_residual | N | how far the worst reading lies off the straight line
shear_modulus_found | GPa | shear modulus that the measured rate needs
rate_expected | N/mm | rate by wire, diameter and coils
rate_off | % | how far the measured rate is off that
tap_lead | mm | depth that the tap's end leaves without full thread
point_height | mm | height of the cone that the drill's point leaves
drill_depth | mm | depth of the hole with its full diameter
tip_depth | mm | depth of the tip of the drill
wall_left | mm | thickness left behind the point; less than nought where the drill comes out
most_thread | mm | most full thread that the part has room for
deflection_at | mm | where that is, from the left end
deflection_long_term | mm | how far it bends after years under the load
deflection_limit | mm | the most that it should bend in the long run
bending_moment | N m | greatest bending moment; less than nought where the beam bends upward
bending_moment_at | mm | where that is, from the left end
shear_force | N | greatest shear force
reactions | | what the supports do to the beam, from the left
second_moment | mm4 | second moment of area about the axis across
section_modulus | mm3 | second moment over the distance to the outermost fibre
allowed_stress | MPa | stress allowed: strength over its factor
second_moment_needed | mm4 | second moment that would keep the limit of bending
depth_needed | mm | depth, at the same width, that would keep both limits
shear_deflection | mm | what shearing adds to the deflection
self_weight | N | its own weight
self_weight_deflection | mm | how far it bends under its own weight alone
screw_diameter | mm | diameter of the screw
hole_diameter | mm | diameter of the clearance hole
position_zone | mm | diameter of the zone in which each hole's centre may lie
each_way | mm | how far each centre may be off in x and in y at once, plus or minus
worst_offset | mm | how far two matching centres may differ at the worst
always_goes | | whether the pattern goes together however the errors fall
share_that_goes | % | share of such patterns that go together, errors by chance
hole_needed | mm | hole with which the pattern always goes together
usual_holes | mm | clearance hole of each fit, and what it allows
sine_height | mm | height under the one roller
sine_angle | deg | angle that the bar is set to
stack | | slip gauges that make up the height
stack_height | mm | height that they make up
stack_angle | deg | angle that they set
angle_error | deg | how far the angle is off for the error of height
angle_error_seconds | 1 | the same in seconds of arc
photo_size | mm | size of the unknown
photo_spread | mm | how far it may be off by the clicks, plus or minus
as_seen | mm | size if it lay level with the known length
photo_mean | mm | mean of the sizes by all photographs
photo_range | mm | largest of them less the smallest
mm_per_pixel | mm | length of one pixel at the known length
foreshortening | % | by how much the slant shortens it
triangle_base | mm | level side
triangle_height | mm | upright side
triangle_slope | mm | longest side
triangle_angle | deg | angle between level and longest side
other_angle | deg | angle between upright and longest side
gradient | % | rise for a hundred of level
square_diagonal | mm | diagonal of the frame when it is square
corner | deg | angle of the corner opposite the diagonal measured
out_of_square | deg | that angle less a right angle
lean | mm | how far the far side stands over; more than nought towards an acute corner
side | mm | one side
across_flats | mm | diameter of the circle within
across_corners | mm | diameter of the circle about
polygon_area | mm2 | area of the polygon
round_about | mm | length of all sides together
inside_angle | deg | angle of each corner
section_area | mm2 | area of the section
centroid_up | mm | centroid over the lowest fibre
centroid_across | mm | centroid to the right of the leftmost fibre
second_moment_side | mm4 | second moment of area about the upright axis
product_moment | mm4 | product moment of area
second_moment_most | mm4 | greatest second moment about any axis through the centroid
second_moment_least | mm4 | least second moment about any axis through the centroid
principal_angle | deg | stiffest axis from the axis across, anticlockwise
section_modulus_top | mm3 | section modulus to the highest fibre
section_modulus_bottom | mm3 | section modulus to the lowest fibre
section_modulus_side | mm3 | section modulus for bending sideways
radius_of_gyration | mm | least radius of gyration
shear_factor | 1 | how much more it shears than under the same shear stress all over
mass_per_length | g/m | mass for each length of it
buckling_load | N | load at which it fails, by the rule that governs
buckling_rule | | Euler where it is slender, Johnson where it is not
euler_load | N | Euler's load of a slender strut
rankine_load | N | failing load by Rankine's formula
squash_load | N | load that would crush or yield it if it could not bend out
allowed_load | N | load allowed: failing load over its factor
effective_length | mm | length between the points where its bent line turns
slenderness_ratio | 1 | effective length over the least radius of gyration
euler_from | 1 | slenderness ratio from which Euler's formula holds
load_share | % | load, of the load allowed
frequency | Hz | pitch of the lowest mode
note_name | | nearest note, and how far it is off
string_diameter | mm | diameter of the string, of a wound one its core
breaking_tension | N | tension that breaks it, at the least tensile strength
breaking_share | % | stress, of the tensile strength
highest_frequency | Hz | pitch at which the stress reaches its limit
longest_string | mm | sounding length at that pitch at which the stress reaches its limit
stretch | mm | how much longer the sounding length becomes
inharmonicity | 1 | B of f_n = n f sqrt(1 + B n^2)
tension_change | N | more tension for so many cents
total_tension | N | pull of all strings
bow | mm | bow of the frame at once
bow_long_term | mm | bow after years
bow_limit | mm | the most that it should bow in the long run
fibre_stress | MPa | greatest stress in the frame, of bending and of the pull
offset_balanced | mm | offset from the neutral axis at which the bow keeps its limit
down_force | N | force of the strings on what they are bent over
board_sag | mm | sag of the board at once
board_sag_long_term | mm | sag of the board after years
board_thickness_needed | mm | thickness of the board that would keep the limit
total_load | N | load on the shelf in all
thickness_needed | mm | thickness that would keep the limit
span_allowed | mm | span at which this board would keep the limit
reaction | N | force of a support on the beam; less than nought downward
holding_moment | N m | moment with which a support holds the beam, clockwise
"""
