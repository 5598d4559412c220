using System.Collections.Immutable;
using DeckLife.Reporting.Html;

namespace DeckLife.Reporting.Sections;

/// <summary>The trade's terms as a report uses them.</summary>
public sealed class Glossary : IReportPart
{
    /// <summary>Terms and meanings.</summary>
    public static ImmutableArray<(string Term, string Meaning)> Terms { get; } =
    [
        (
            "Ageing exponent",
            "How fast the diffusion coefficient falls while concrete matures: 0 means that it stays constant."
        ),
        (
            "Apparent diffusion coefficient",
            "One number for how fast chloride went in, from a fit to a measured profile at its age. Not the same as the coefficient of a laboratory test at that age."
        ),
        (
            "Background chloride",
            "Chloride that was in the concrete from the start, far below where salt has reached."
        ),
        (
            "Band",
            "The 5th to 95th percentile over what is not known about the deck. Nine times in ten the truth should lie in it, if the model holds."
        ),
        ("c.o.v.", "Coefficient of variation: the standard deviation as a share of the mean."),
        (
            "Chloride threshold",
            "Content at the bar at which corrosion starts. It varies from place to place and is not well known: both are in the answer."
        ),
        ("Cover", "Concrete between the surface and the top of the bar."),
        ("Damaged", "Delaminated or spalled, and not yet repaired."),
        (
            "Detection limit",
            "Content below which the laboratory can't tell it from none. Such a sample enters as 'less than', not as 0."
        ),
        (
            "Draw",
            "One set of values for everything that is not known: threshold, surface chloride, diffusion coefficient and the rest. Many draws make the band."
        ),
        (
            "Exposed, struck, undercut",
            "A top bar with concrete taken off around it; touched by the removal; with concrete taken off below it as well."
        ),
        (
            "Half-cell potential",
            "Voltage of the bar against a reference electrode on the surface (here copper/copper-sulfate, CSE). More negative: corrosion likelier."
        ),
        (
            "Horizon",
            "How far the projection looks ahead. What lies beyond is said to lie beyond, never guessed."
        ),
        (
            "Initiation",
            "The moment at which the threshold is passed at the bar. Damage follows after the propagation period."
        ),
        (
            "Limited, refused",
            "A fit that can be used only with its stated reservation; a core without any estimate, with the reason."
        ),
        (
            "Limits, 95 %",
            "Nineteen times in twenty the true value should lie between them, if the model of the errors holds; ± is one standard error."
        ),
        ("Median", "The value with as much above it as below."),
        (
            "Overlay, scarify",
            "New concrete over the deck's whole width; roughening or milling off the skin before it."
        ),
        (
            "Present value",
            "What all payments over the horizon are worth today at the real discount rate."
        ),
        ("Propagation period", "Time from initiation until damage shows at the surface."),
        (
            "Residual chloride",
            "Salt that stays in the old concrete under an overlay. It moves on, up and down, and is never set to zero here."
        ),
        (
            "Service life",
            "Time from the survey until the stated end criterion. It means nothing without that criterion and its band."
        ),
        (
            "Split R-hat, effective sample size",
            "Whether the computed draws of the fit have settled: R-hat near 1, and some hundreds of independent draws or more."
        ),
        ("Surface chloride", "Content at the surface that a fit sees; it drives the ingress."),
    ];

    /// <inheritdoc/>
    public HtmlFragment ToHtml() =>
        HtmlFragment.Of(
            $"<dl class=\"dl-glossary\">{HtmlFragment.Join(Terms.Select(t => HtmlFragment.Of($"<dt>{t.Term}</dt><dd>{t.Meaning}</dd>")))}</dl>"
        );

    /// <inheritdoc/>
    public string ToText() => string.Concat(Terms.Select(t => $"{t.Term}: {t.Meaning}\n"));
}
