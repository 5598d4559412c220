namespace DeckLife.Diagnostics;

public static partial class DiagnosticCatalogue
{
    /// <summary>The deck has neither a cover survey nor a stated cover.</summary>
    public static DiagnosticEntry NoCover { get; } =
        new(
            "DL4001",
            Severity.Error,
            "No cover",
            "The deck has {0} cover readings; at least {1} are needed, or a stated cover with its spread: add cover.csv, or cover.stated in deck.json.",
            "Cover decides more than anything else when salt reaches the bars, and its spread decides when the first "
                + "tenth of the area is damaged. Add cover.csv, or state the cover of the drawings with an honest spread; it is never guessed."
        );

    /// <summary>Threshold and laboratory used different extractions.</summary>
    public static DiagnosticEntry ExtractionMismatch { get; } =
        new(
            "DL4002",
            Severity.Error,
            "Extraction differs",
            "The threshold is {0} and the laboratory's chloride is {1}: they can't be compared. Give a threshold on the laboratory's own extraction.",
            "Water-soluble contents are lower than acid-soluble ones of the same powder by a share that depends on the "
                + "concrete. Give a threshold on the laboratory's own extraction."
        );

    /// <summary>A strategy removes concrete below the top bars of a deck where that is never assumed.</summary>
    public static DiagnosticEntry RemovalBelowTopBarsRefused { get; } =
        new(
            "DL4003",
            Severity.Error,
            "Removal below top bars",
            "Strategy \"{0}\" is refused: the deck is {1} and removal would expose {2:0.#} % of its top bars by more than half.",
            "Removal below the top bars changes how a deck carries load. On precast and post-tensioned decks it can release "
                + "anchorage or prestress and is never assumed here. Plan less depth, and none by half-cell potential, which goes to under the bars; "
                + "or have a licensed engineer design the removal."
        );

    /// <summary>A strategy removes concrete below the top bars.</summary>
    public static DiagnosticEntry RemovalBelowTopBars { get; } =
        new(
            "DL4004",
            Severity.Warning,
            "Removal below top bars",
            "The planned depth reaches so far past the cover of {0:0.#} % of the top bars that they are exposed by more than half: a structural check, staging and shoring come first.",
            "Where more than half of a bar is exposed, removal goes on to 3/4 in clear under it (common practice). The deck is "
                + "weaker until the new concrete has gained strength. A licensed engineer decides. A smaller depth spares bars; "
                + "what repairs of damaged places open is told apart (DL4022)."
        );

    /// <summary>Repairs of a strategy, or removal where half-cell potentials ask for it, open top bars.</summary>
    public static DiagnosticEntry RepairsExposeTopBars { get; } =
        new(
            "DL4022",
            Severity.Warning,
            "Repairs expose top bars",
            "{0} expose {1:0.#} % of the top bars by more than half{2}: a structural check of what is open at one time, with staging and shoring, comes first.",
            "A damaged place is taken out to 3/4 in clear under its bars (common practice), whatever depth the rest of the deck "
                + "is planned to. A smaller planned depth spares none of these bars; opening fewer places at one time does. The deck "
                + "is weaker until the new concrete has gained strength. A licensed engineer decides."
        );

    /// <summary>A strategy names a material that the deck does not describe.</summary>
    public static DiagnosticEntry UnknownMaterial { get; } =
        new(
            "DL4005",
            Severity.Error,
            "Unknown material",
            "Strategy \"{0}\" places \"{1}\", which is not among the deck's materials: describe it there, or correct the name.",
            "Describe the material (diffusion coefficient with its spread, ageing, source) or correct the name."
        );

    /// <summary>A removal would leave too little of the deck.</summary>
    public static DiagnosticEntry RemovalThroughDeck { get; } =
        new(
            "DL4006",
            Severity.Error,
            "Removal through the deck",
            "Strategy \"{0}\" takes off {1} mm of a deck {2} mm thick: take off less, at least 10 mm (0.4 in) of old concrete must be left.",
            "At least 10 mm of old concrete has to be left for the transport problem to have a meaning; long before that, "
                + "replacement is another strategy."
        );

    /// <summary>An intervention lies beyond the horizon.</summary>
    public static DiagnosticEntry InterventionBeyondHorizon { get; } =
        new(
            "DL4007",
            Severity.Error,
            "Intervention beyond the horizon",
            "Strategy \"{0}\" acts at {1} yr, after the horizon of {2} yr: lengthen the horizon or drop the intervention.",
            "Lengthen the horizon or drop the intervention: what lies beyond the horizon can't be compared."
        );

    /// <summary>More overlays than the projection follows.</summary>
    public static DiagnosticEntry ManyOverlays { get; } =
        new(
            "DL4008",
            Severity.Error,
            "Many overlays",
            "Strategy \"{0}\" places {1} overlays; at most {2} are followed: shorten the horizon or leave out the last overlays.",
            "Every overlay is a layer through which salt is followed, and the layered solver holds six in all, repairs included. "
                + "Rounds of patching are not limited. Shorten the horizon or leave out the last overlays."
        );

    /// <summary>A removal rule of an unknown kind.</summary>
    public static DiagnosticEntry UnknownRemovalRule { get; } =
        new(
            "DL4009",
            Severity.Error,
            "Unknown removal rule",
            "Strategy \"{0}\" has a removal rule of the kind {1}, which the projection does not follow: use a fixed depth, a chloride limit, unsound areas, or a half-cell limit.",
            "Use removal to a fixed depth, to a chloride limit, of unsound areas, or by half-cell limit."
        );

    /// <summary>Removal to a limit that leaves content above it.</summary>
    public static DiagnosticEntry LimitNotReached { get; } =
        new(
            "DL4010",
            Severity.Warning,
            "Limit not reached everywhere",
            "On {0:0.#} % of the area there is more chloride than the limit below the deepest removal, {1} mm, too: it stays and is followed. Raise the rule's greatest depth to take it out.",
            "Depth classes follow the depths that most of the deck needs, and the rule's own greatest depth caps them. What "
                + "stays is kept in the projection: residual salt is never reset."
        );

    /// <summary>No price for reaching the end.</summary>
    public static DiagnosticEntry NoRenewalPrice { get; } =
        new(
            "DL4011",
            Severity.Warning,
            "The end costs nothing",
            "No price is given for renewing the deck when the end criterion is met: present values hold the interventions alone, "
                + "and no strategy is called the cheapest. Add a price on the basis of renewed area.",
            "Without it, doing nothing is always the cheapest, since a deck that fails costs nothing. Add a price on the basis "
                + "of renewed area."
        );

    /// <summary>Fewer draws than the ends of a band need.</summary>
    public static DiagnosticEntry FewDraws { get; } =
        new(
            "DL4012",
            Severity.Note,
            "Few draws",
            "The projection uses {0} draws: fewer than ten of them lie beyond either end of a band, so its ends are rough. Use at least 200 (draws under analysis in deck.json, or --draws).",
            "The ends of a band are the 5th and 95th percentiles over the draws. The Monte Carlo error beside each percentile of a life says how rough; from 200 draws "
                + "ten lie beyond either end. More draws narrow that error; more points narrow that of the area within a draw."
        );

    /// <summary>The deck was fitted without draws.</summary>
    public static DiagnosticEntry NoPosteriorDraws { get; } =
        new(
            "DL4013",
            Severity.Warning,
            "No draws from the fit",
            "The fit of the deck has no draws; medians were moved by their standard errors and spreads were taken as known: the band is too narrow. Fit the deck by its posterior.",
            "The band is then too narrow where few cores say how much the deck varies. Fit the deck by its posterior."
        );

    /// <summary>Something outside its range.</summary>
    public static DiagnosticEntry ProjectionInput { get; } =
        new(
            "DL4014",
            Severity.Error,
            "Projection input",
            "{0} is {1}: {2}.",
            "A projection needs a positive horizon, a damage limit between 0 and 1, at least 20 draws and at least 16 points."
        );

    /// <summary>A survey that the model did not expect.</summary>
    public static DiagnosticEntry SurveyContradictsModel { get; } =
        new(
            "DL4015",
            Severity.Warning,
            "Survey contradicts model",
            "The {0} survey contradicts what the cores and covers predict: before learning, a survey this far off had a probability of {1:0.######}. Look for the reason before relying on the answer.",
            "Either the cores were not taken at random, the threshold or the propagation period is wrong for this deck, damage has "
                + "another cause than chloride, or the survey is off. Learning from it moves the answer, it does not settle the contradiction."
        );

    /// <summary>Too few draws agree with the surveys.</summary>
    public static DiagnosticEntry SurveysNotLearned { get; } =
        new(
            "DL4016",
            Severity.Warning,
            "Surveys not learned from",
            "Only {0:0} of {1} draws agree with the surveys: no curve after learning is shown, and the projection rests on the cores alone. Look for a contradiction between surveys and cores.",
            "Below an effective number of 100 a learned band would be an accident of the seed. Usually the surveys contradict the model: look there first."
        );

    /// <summary>The weights of the draws have a heavy tail.</summary>
    public static DiagnosticEntry WeightsNotTrusted { get; } =
        new(
            "DL4017",
            Severity.Warning,
            "Weights not to be trusted",
            "A few draws carry most of the surveys' weight (shape of its tail {0:0.00}, above 0.7): the band after learning may change with the seed. Look for a contradiction between surveys and cores.",
            "Few draws lie where the surveys put the deck. Look for a contradiction between surveys and cores."
        );

    /// <summary>Repairs without an overlay, their surroundings taken as before.</summary>
    public static DiagnosticEntry HaloNotCounted { get; } =
        new(
            "DL4018",
            Severity.Warning,
            "Faster corrosion beside patches not counted",
            "Corrosion beside the patches is taken to go on as before: the damage after this intervention is then too low. State a rim (halo) to count it.",
            "A patch takes away the anode that protected the bars beside it; these often corrode faster than before (incipient anode). "
                + "Patching therefore looks better here than it is. State a rim (halo: width, typical patch, rate) to count it."
        );

    /// <summary>An intervention waits for an overlay that never ends.</summary>
    public static DiagnosticEntry NoOverlayToEnd { get; } =
        new(
            "DL4019",
            Severity.Error,
            "No overlay to wait for",
            "Strategy \"{0}\" waits for an overlay to end, but nothing before it has a life of its own: give the overlay's material a serviceLife, or date the intervention.",
            "Give the overlay's material a service life (bond, cracking, wear), or date the intervention."
        );

    /// <summary>Two interventions at one time.</summary>
    public static DiagnosticEntry InterventionsAtOneTime { get; } =
        new(
            "DL4020",
            Severity.Error,
            "Interventions at one time",
            "Strategy \"{0}\" has two interventions at {1} yr: join them.",
            "What is done at one time is one intervention: removal, repairs, overlay and protection in that order. Join the two."
        );

    /// <summary>An overlay thinner than its specification allows.</summary>
    public static DiagnosticEntry OverlayThinnerThanSpecified { get; } =
        new(
            "DL4021",
            Severity.Warning,
            "Overlay thinner than specified",
            "The overlay of {0} is {1:0.#} mm thick; its specification asks for at least {2:0.#} mm: the local specification decides.",
            "Thin overlays of a material meant for more curl, crack and lose bond; the stated life then does not hold. The limits "
                + "differ by agency: the local specification decides."
        );
}
