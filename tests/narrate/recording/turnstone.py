"""An invented narration, and the same as a speaker who departs from it would give it."""

SENTENCES: tuple[str, ...] = (
    "The Turnstone is a flying boat, and she was built on the Tamar by Hallam and Reeve.",
    "Two engines sit on top of the wing, well clear of the spray.",
    "Below them runs the hull, with a step across its planing bottom.",
    "The chine is the edge where the bottom meets the side.",
    "Six hatches go down into the bilge, and each has its own pump.",
    "A pilot sits on the left, and the engineer behind him faces aft.",
    "On the panel behind him are four contents gauges and two selector cocks.",
    "Each cock has three positions, which are port, starboard and off.",
    "Petrol for starting is drawn from the port tank alone.",
    "The feed pump delivers at fifteen pounds to the square inch.",
    "A red lamp lights when the pressure falls below ten.",
    "If the lamp lights in the air, the hand pump is worked at once.",
    "The radiator shutters are opened by a wheel beside the seat.",
    "Coolant runs from the header tank through both engines and back.",
    "Never open the filler while the gauge shows more than ninety degrees.",
    "The generator on the starboard engine charges the accumulators.",
    "With both engines stopped there is current for about two hours.",
    "The landing light takes most of it, so it is switched off on the water.",
    "Flaps are worked by oil from a pump on the port engine.",
    "They come down in eleven seconds and go up a little faster.",
    "A relief valve opens at eight hundred pounds and sends the oil home.",
    "If the pump fails there is a handle under the floor.",
    "It takes forty strokes to bring the flaps fully down.",
    "The floats at the wing tips are fixed and cannot be raised.",
    "To moor the boat, the bow hatch is opened and the drogue is put out.",
    "A crewman picks up the buoy with a boat hook.",
    "The anchor lives in a locker behind the front gunner.",
    "In rough water the bilge should be sounded every hour.",
    "More than four inches of water means that a seam has opened.",
    "Each compartment can flood without the boat being lost.",
    "The galley has a stove, a sink and room for three.",
    "Oxygen was never fitted, for she seldom flew above nine thousand feet.",
    "Her best speed was a hundred and sixty miles an hour.",
    "On one patrol she stayed up for nineteen hours.",
    "The second mark had larger tanks and a stronger hull.",
    "Only eleven of that mark were ever finished.",
    "Ours was the last to leave the slipway at Saltash.",
    "She was broken in a gale, and only the hull was saved.",
    "What you see today has taken nine winters of work.",
    "The wing is new from the root to the third rib.",
    "All the instruments are her own, found in a barn near Looe.",
    "Please touch nothing but the handrail, and mind the step.",
)

DROPPED = (4, 11, 16, 24, 31, 36)
"""Sentences that the speaker leaves out, counted from 0."""

ALTERED = {
    7: "Each cock has four positions, and one of them was never used.",
    13: "Water runs from a bucket through a hose and over the floor.",
    18: "Flaps are worked by a chain from a motor in the tail.",
    22: "It takes a strong man and a good deal of bad language to bring the flaps down.",
    29: "Only the middle one of them was ever seen to leak.",
    39: "The wing came from another boat that was burnt.",
}
"""Sentences that the speaker says otherwise."""

DEPARTED = tuple(ALTERED.get(at, text) for at, text in enumerate(SENTENCES) if at not in DROPPED)
"""What the speaker says."""

OTHER: tuple[str, ...] = (
    "Good evening, and welcome to the gardening hour.",
    "Tonight we shall talk about roses, and about the greenfly that loves them.",
    "Plant them in autumn while the soil is still warm from the summer.",
    "A spade of good manure in every hole will do no harm at all.",
    "Prune hard in March, just above a bud that faces outward.",
    "My neighbour swears by coffee grounds, but then she swears at most things.",
    "Water in the morning, never in the heat of the day.",
    "When the leaves turn black there is nothing for it but a bonfire.",
    "Next week a gentleman from Kent will tell us about potatoes.",
)
"""Somebody else's script."""
