namespace DeckLife.Diagnostics;

public static partial class DiagnosticCatalogue
{
    /// <summary>A study file cannot be read.</summary>
    public static DiagnosticEntry StudyFileUnreadable { get; } =
        new(
            "DL6001",
            Severity.Error,
            "Study file unreadable",
            "{0}",
            "The study file is not valid JSON, or a member has the wrong kind or a value that is not allowed. The message names the place. Nothing was computed."
        );

    /// <summary>A quantity that the section needs is missing.</summary>
    public static DiagnosticEntry StudyInputMissing { get; } =
        new(
            "DL6002",
            Severity.Error,
            "Input missing",
            "The study gives no {0}, which this section and these outputs need: add it to \"inputs\" with a distribution or a fixed value.",
            "Nothing is assumed in a study: a quantity without a value would be a guess."
        );

    /// <summary>A quantity is given twice.</summary>
    public static DiagnosticEntry StudyInputTwice { get; } =
        new(
            "DL6003",
            Severity.Error,
            "Input given twice",
            "The input {0} is given more than once: keep one.",
            "Which of the two is meant can't be known."
        );

    /// <summary>A fixed value is outside its range.</summary>
    public static DiagnosticEntry StudyValueOutside { get; } =
        new(
            "DL6004",
            Severity.Error,
            "Value outside its range",
            "The input {0} is {1}; allowed is {2}.",
            "The value is impossible for the quantity, or its unit is not the one meant."
        );

    /// <summary>A distribution reaches outside the quantity's range.</summary>
    public static DiagnosticEntry StudyDistributionOutside { get; } =
        new(
            "DL6005",
            Severity.Error,
            "Distribution outside the range",
            "The input {0} ({1}) reaches outside {2} with probability {3:G3}: cut it with \"lower\" and \"upper\", or take a shape that has these bounds.",
            "A normal cover can be negative, for instance. Clipping the draws would change the distribution behind the reader's back; the cut is stated in the study file and its moments are reported."
        );

    /// <summary>Nothing is drawn.</summary>
    public static DiagnosticEntry StudyNothingDrawn { get; } =
        new(
            "DL6006",
            Severity.Error,
            "Nothing is uncertain",
            "All inputs are fixed: give at least one a distribution.",
            "Sensitivity and reliability are about inputs that vary."
        );

    /// <summary>No output or no method.</summary>
    public static DiagnosticEntry StudyNothingAsked { get; } =
        new(
            "DL6007",
            Severity.Error,
            "Nothing is asked",
            "The study names no output or no method: give at least one of each.",
            "Give at least one entry in \"outputs\" and in \"methods\"."
        );

    /// <summary>A quantity that has no place in a section with an overlay.</summary>
    public static DiagnosticEntry StudyNotWithOverlay { get; } =
        new(
            "DL6008",
            Severity.Error,
            "Not in a section with an overlay",
            "The input {0} has no place in a section with an overlay: remove it.",
            "The convection zone is part of a fit from the surface; under an overlay the profile is followed from the new surface itself."
        );

    /// <summary>A method cannot be applied.</summary>
    public static DiagnosticEntry StudyMethodImpossible { get; } =
        new(
            "DL6009",
            Severity.Error,
            "Method can't be applied",
            "{0}",
            "The method's number of points, its groups or the dependence of the inputs don't fit. The message says what is allowed."
        );

    /// <summary>The nearest valid correlations were taken.</summary>
    public static DiagnosticEntry StudyCorrelationsRepaired { get; } =
        new(
            "DL6010",
            Severity.Warning,
            "Nearest valid correlations taken",
            "The correlations given contradict each other; as asked, the nearest valid ones were taken. Check them against the source.",
            "No set of variables can have the correlations given. The nearest valid matrix (Higham 2002) was used because the study says \"takeNearestValidCorrelations\": true."
        );

    /// <summary>A time to initiation was held at its horizon.</summary>
    public static DiagnosticEntry StudyTimeHeldAtHorizon { get; } =
        new(
            "DL6011",
            Severity.Note,
            "Times held at the horizon",
            "{0}: {1:P1} of the points of method {2} do not start within the horizon; their time was held at it, so the result is that of the time up to the horizon. A longer horizon brings it nearer to the time itself.",
            "A variance needs a value for every point, and \"not within\" has none. The restricted time min(T, horizon) is a quantity of its own; a longer horizon makes it nearer to T. Percentiles and probabilities are not affected: there such draws count as not reached."
        );

    /// <summary>An output has no variance.</summary>
    public static DiagnosticEntry StudyNoVariance { get; } =
        new(
            "DL6012",
            Severity.Warning,
            "No variance",
            "{0} is the same at all points of method {1}: there is no variance to share out. Choose another age, or an output that varies.",
            "All draws initiate, or none does, or the output does not depend on what is drawn. Choose another age, or an output that varies."
        );

    /// <summary>No design point was found.</summary>
    public static DiagnosticEntry StudyNoDesignPoint { get; } =
        new(
            "DL6013",
            Severity.Warning,
            "No design point found",
            "{0}: no design point was found, from the origin ({1}) or elsewhere: look at the result of plain draws (monteCarlo).",
            "The limit state may not be reachable, be flat around the origin, or have no gradient. Look at the Monte Carlo result."
        );

    /// <summary>A partial result belongs to another study.</summary>
    public static DiagnosticEntry StudyPartOfAnother { get; } =
        new(
            "DL6014",
            Severity.Error,
            "Part of another study",
            "{0} belongs to another study file, seed or version: it can't be continued or merged with this one. Remove the part, or use the study file and version that it was begun with.",
            "Parts carry the hash of the study file and the version that wrote them. Remove the part, or use the study file and the version that it was begun with."
        );

    /// <summary>Parts are missing.</summary>
    public static DiagnosticEntry StudyPartsMissing { get; } =
        new(
            "DL6015",
            Severity.Error,
            "Parts missing",
            "{0} of {1} pieces of work are missing: merge all shards, or run the missing ones.",
            "A study is merged only when every piece is there; a result from some of them would look like the whole."
        );

    /// <summary>The deck of a study can't be used.</summary>
    public static DiagnosticEntry StudyDeckUnusable { get; } =
        new(
            "DL6016",
            Severity.Error,
            "Deck of the study unusable",
            "{0}",
            "A study of a deck names a deck's folder, one of its strategies and times within its horizon. The message says what does not fit; what is wrong within the folder itself is reported as decklife check reports it."
        );

    /// <summary>An input or output belongs to the other kind of study.</summary>
    public static DiagnosticEntry StudyOfOtherSubject { get; } =
        new(
            "DL6017",
            Severity.Error,
            "Not of this subject",
            "{0} belongs to a study of a {1}, not of a {2}: remove it, or change the study's subject.",
            "A section has a cover; a deck has a mean cover and a spread. Inputs and outputs of the two kinds of study can't be mixed."
        );

    /// <summary>Quantities that stay at the middle.</summary>
    public static DiagnosticEntry StudyDeckMiddle { get; } =
        new(
            "DL6018",
            Severity.Note,
            "Held at the middle",
            "{0}: what the study does not name stays at the middle of what the deck's folder says: {1}. What its sounding and half-cell surveys would teach a projection is not used; the input surveyedState uses it.",
            "The deck is fitted once; a quantity that the study names replaces the fitted one, all others keep their middle value and add nothing to the spread. What the deck's sounding and half-cell surveys teach a projection is not used here: the study's own distributions say what is known. A study with the input surveyedState starts from the draws of a projection instead. Depths of removal are those planned at the middle."
        );

    /// <summary>An input that the surveyed state draws already.</summary>
    public static DiagnosticEntry StudyInputOfState { get; } =
        new(
            "DL6019",
            Severity.Error,
            "Part of the surveyed state",
            "The input {0} is part of surveyedState, which draws it together with all that the surveys tie it to: remove one of the two.",
            "Surveys teach about quantities jointly: a higher threshold goes with more salt. A distribution of its own for one of them would tear that apart. Beside surveyedState a study can name the overlay, the corrosion rate under it, prices and the discount rate."
        );

    /// <summary>What the surveyed state is.</summary>
    public static DiagnosticEntry StudyDeckSurveyed { get; } =
        new(
            "DL6020",
            Severity.Note,
            "Starts from the projection's draws",
            "{0}: surveyedState picks from the {1} draws that a projection uses, {2}. Held as the folder says: {3}.",
            "The draws are those of decklife project with the folder's own seed and number of draws: deck, threshold, propagation, model form and new materials, "
                + "learned together. They stand in the order of the share damaged half-way to the horizon with nothing done, and an even number between 0 and 1 picks "
                + "one: all that they differ in counts as one input. overlayDiffusionFactor, where named, replaces their diffusion coefficients of new materials. "
                + "More draws in the folder make the set finer. Prices stay as listed unless named; a projection draws them too. Depths of removal are those planned at the middle."
        );
}
