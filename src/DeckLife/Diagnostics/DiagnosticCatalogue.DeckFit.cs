namespace DeckLife.Diagnostics;

public static partial class DiagnosticCatalogue
{
    /// <summary>DL2201: no core can be used.</summary>
    public static DiagnosticEntry DeckWithoutCores { get; } =
        new(
            "DL2201",
            Severity.Error,
            "No core for the deck fit",
            "None of {0} cores can be used for the deck fit. At least one core with 3 slices that fall with depth is needed. Reasons: {1}",
            "A deck fit needs chloride that falls with depth. Cores that show none (flat, rising, all below detection, too few slices) say nothing on the surface content or the diffusion coefficient. "
                + "Take more cores, or finer slices."
        );

    /// <summary>DL2202: the chains did not converge.</summary>
    public static DiagnosticEntry DeckChainsNotConverged { get; } =
        new(
            "DL2202",
            Severity.Error,
            "Deck fit not converged",
            "The chains of the deck fit did not converge: split R-hat {0:F4} (at most {1:G4} is allowed), effective sample size {2:F0} (at least {3:F0}). Look for a core that does not belong to this deck, and fit without it.",
            "The posterior is drawn by several Markov chains from different starts. When they do not agree, or move too slowly, their draws are not the posterior and nothing may be projected from them. "
                + "Split R-hat compares the chains and their halves; the effective sample size counts independent draws (Vehtari et al. 2021)."
        );

    /// <summary>DL2203: fewer than three cores.</summary>
    public static DiagnosticEntry DeckLeansOnPriors { get; } =
        new(
            "DL2203",
            Severity.Warning,
            "Deck fit leans on its priors",
            "Only {0} core(s) can be used. The spread between cores is then known from the prior alone (half-normal, scales {1:G3} for ln Cs and {2:G3} for ln D), not from this deck. Take at least 3, better 8 cores.",
            "One or two cores say how strong chloride is where they were taken, but next to nothing on how it varies over the deck. The fit is carried out all the same, with the stated weakly informative priors, so that its limits are honest; "
                + "they are wide because the knowledge is missing."
        );

    /// <summary>DL2204: a core was left out of the deck fit.</summary>
    public static DiagnosticEntry CoreLeftOutOfDeck { get; } =
        new(
            "DL2204",
            Severity.Warning,
            "Core left out of the deck fit",
            "Core {0} takes no part in the deck fit: {1}",
            "A core that can't be fitted is left out of the population, by name and with its reason. If such cores are typical for a part of the deck, the population describes the rest only."
        );

    /// <summary>DL2205: cores on cracks are fitted apart.</summary>
    public static DiagnosticEntry CrackCoresApart { get; } =
        new(
            "DL2205",
            Severity.Note,
            "Crack cores fitted apart",
            "{0} core(s) on cracks are fitted apart from the {1} on sound concrete: {2}",
            "Chloride runs down a crack and spreads from its faces; a profile taken there shows a far higher apparent coefficient. Mixed with the others, such cores would raise the mean and the spread of the whole deck. "
                + "They have their own fit, for the cracked share of the area."
        );

    /// <summary>DL2206: targeted cores without an area share.</summary>
    public static DiagnosticEntry TargetedCoresUnweighted { get; } =
        new(
            "DL2206",
            Severity.Warning,
            "Targeted cores without their share of the area",
            "{0} of {1} cores were taken where trouble was seen, and {2}. The fit describes the places of the cores, which are worse than the deck. Give the share of the area that looks like those places, and cores from elsewhere.",
            "Cores taken where trouble is over-represent it. With the share of the area that such places have, and with some cores taken at random, the deck is the mixture of both by area. Without either, nothing in the data can undo the choice of the places."
        );

    /// <summary>DL2207: ages differ, but too little to estimate the exponent.</summary>
    public static DiagnosticEntry AgesPooledAtGivenExponent { get; } =
        new(
            "DL2207",
            Severity.Note,
            "Cores of several ages brought to one by a given exponent",
            "Exposure ages run from {0:G4} to {1:G4} yr. The coefficients are brought to {2:G4} yr with the given ageing exponent {3:G3}, which is not estimated.",
            "An apparent diffusion coefficient belongs to its age. Cores of different ages are brought to one age by the ageing law. The exponent can be estimated only when the ages differ enough; else it is an input."
        );

    /// <summary>DL2208: the data hardly inform the ageing exponent.</summary>
    public static DiagnosticEntry AgeingExponentFromPrior { get; } =
        new(
            "DL2208",
            Severity.Warning,
            "Ageing exponent hardly known from the cores",
            "The ageing exponent has s.d. {0:G3} after the cores and {1:G3} before: they say little on it. Take it from the mix, or show the answer without ageing beside it.",
            "Few cores, large scatter between cores or ages close together leave the exponent where the prior put it. Cores of different ages also come from different places: part of the exponent may be the difference of the places."
        );

    /// <summary>DL2209: the restricted maximum likelihood lies at its edge.</summary>
    public static DiagnosticEntry RemlSingular { get; } =
        new(
            "DL2209",
            Severity.Note,
            "Restricted maximum likelihood at its edge",
            "Restricted maximum likelihood puts the covariance between cores at its edge (s.d. {0:G3} and {1:G3}, correlation {2:F3}): it can't tell the spread with {3} cores. The posterior stands.",
            "With five cores the estimate of the covariance is singular in about a third of all cases. The t limits beside the posterior then treat a spread of 0, or a perfect correlation, as known."
        );

    /// <summary>DL2210: no restricted maximum likelihood beside the posterior.</summary>
    public static DiagnosticEntry RemlAbsent { get; } =
        new(
            "DL2210",
            Severity.Note,
            "No restricted maximum likelihood",
            "Restricted maximum likelihood is not shown beside the posterior: {0}",
            "It needs at least 3 cores that can each be fitted with their own surface content and coefficient, one error law for all slices, and a first stage that converges."
        );

    /// <summary>DL2211: given errors are missing.</summary>
    public static DiagnosticEntry DeckGivenErrorMissing { get; } =
        new(
            "DL2211",
            Severity.Error,
            "Standard deviations asked for but not given",
            "Weights by given standard deviations were asked for, but core {0} has {1} slice(s) without a positive one. Give a standard deviation for each slice, or choose constant or relative errors.",
            "With given weights each slice needs the laboratory's standard deviation; none is guessed."
        );

    /// <summary>DL2212: skin slices take no part in the deck fit.</summary>
    public static DiagnosticEntry DeckSkinSlices { get; } =
        new(
            "DL2212",
            Severity.Warning,
            "Skin slices left out of the deck fit",
            "Core {0}: {1} slice(s) above the peak take no part in the deck fit. Look at the fits of the core with and without them.",
            "Wetting and drying, carbonation and rain lower the content of the skin. Slices above a peak that is too high to be noise are left out by the same rule as in the fit of a single core."
        );
}
