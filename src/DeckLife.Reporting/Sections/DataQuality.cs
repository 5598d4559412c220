using System.Collections.Immutable;
using System.Text;
using DeckLife.Diagnostics;
using DeckLife.Fitting;
using DeckLife.Projection;
using DeckLife.Reporting.Html;
using DeckLife.Reporting.Notation;
using DeckLife.Reporting.Tables;

namespace DeckLife.Reporting.Sections;

/// <summary>What the answer rests on: each core and survey, what was left out and why, and what is missing.</summary>
/// <param name="deck">The deck; absent: cores alone.</param>
/// <param name="cores">The fits of its cores.</param>
/// <param name="fit">The fit of the deck, where there is one.</param>
/// <param name="projectionFlags">What the projection reports about itself.</param>
/// <param name="isInReport">Whether it stands on a report, which lists what its numbers rest on: they link there.</param>
public sealed class DataQuality(
    Deck? deck,
    ImmutableArray<ProfileFit> cores,
    DeckFit? fit,
    ImmutableArray<Diagnostic> projectionFlags = default,
    bool isInReport = false
) : IReportPart
{
    private const int MostShown = 3;

    /// <summary>Makes it for cores alone.</summary>
    /// <param name="cores">The fits of the cores.</param>
    /// <param name="flags">What else is to be reported.</param>
    public DataQuality(ImmutableArray<ProfileFit> cores, ImmutableArray<Diagnostic> flags)
        : this(null, cores, null, flags) { }

    /// <summary>Makes it from a projection.</summary>
    /// <param name="projection">The projection.</param>
    public static DataQuality Of(DeckProjection projection)
    {
        ArgumentNullException.ThrowIfNull(projection);
        return new(
            projection.Deck,
            projection.Cores,
            projection.Fit,
            projection.Flags,
            isInReport: true
        );
    }

    /// <summary>One row a core.</summary>
    public ReportTable Cores() =>
        new(
            "Cores",
            [
                new("Core"),
                new("Exposure", true, FixedUnit: "yr"),
                new("Slices used", true),
                new("Status"),
                new("Surface chloride", true, UnitScale.Chloride) { Basis = SourceAnchor.CoreFit },
                new("Diffusion coefficient", true, UnitScale.Diffusion)
                {
                    Basis = SourceAnchor.CoreFit,
                },
                new("Background", true, UnitScale.Chloride) { Basis = SourceAnchor.CoreFit },
                new("What to know"),
            ],
            [
                .. cores.Select(c =>
                    ImmutableArray.Create(
                        ReportCell.Words(c.Profile.Core),
                        ReportCell.Number(c.Profile.ExposureAge.Years) with
                        {
                            Basis = Sampled(c),
                        },
                        ReportCell.Words($"{c.Points} of {c.Profile.Slices.Length}") with
                        {
                            Basis = Sampled(c),
                        },
                        Status(c.Status),
                        Estimated(UnitScale.Chloride, c.SurfaceChloride),
                        Estimated(UnitScale.Diffusion, c.DiffusionCoefficient),
                        Estimated(UnitScale.Chloride, c.Background),
                        Remarks(c)
                    )
                ),
            ]
        )
        {
            LinksNumbers = isInReport,
            StacksOnPhones = true,
        };

    /// <summary>One row a survey.</summary>
    public ReportTable Surveys() =>
        new(
            "Surveys",
            [new("Survey"), new("Count", true), new("What it does for the answer")],
            [
                Survey(
                    "Cover readings",
                    SourceAnchor.Covers,
                    deck?.Covers.Length ?? 0,
                    "spread of the cover over the deck",
                    "cover is missing: what stands in for it is an assumption"
                ),
                Survey(
                    "Half-cell nodes",
                    SourceAnchor.HalfCells,
                    deck?.HalfCells.Length ?? 0,
                    "where corrosion is likely today; a check of the projection's start",
                    "missing: today's corrosion can't be checked against the projection"
                ),
                Survey(
                    "Sounded areas",
                    SourceAnchor.Soundings,
                    deck?.Soundings.Length ?? 0,
                    "the damage of today",
                    "missing: today's damage is projected, not observed"
                ),
            ]
        )
        {
            LinksNumbers = isInReport,
            StacksOnPhones = true,
        };

    /// <inheritdoc/>
    public HtmlFragment ToHtml()
    {
        var html = new StringBuilder();
        html.Append(Cores().ToHtml("dl-wide"));
        if (fit is not null)
        {
            html.Append(DeckLine());
        }

        html.Append(Surveys().ToHtml());
        html.Append(Flags());
        return new(html.ToString());
    }

    /// <inheritdoc/>
    public string ToText() =>
        Cores().ToText()
        + "\n"
        + Surveys().ToText()
        + string.Concat(All().Select(f => $"{f.Diagnostic.Code} {f.About}: {f.Diagnostic.Text}\n"));

    private string? Sampled(ProfileFit core) =>
        deck is null ? null : SourceAnchor.Sampled(deck, core.Profile);

    private HtmlFragment DeckLine() =>
        HtmlFragment.Of(
            $"<p>Deck, from {fit!.Cores} cores: median surface chloride {WithLimits(UnitScale.Chloride, fit.SurfaceChloride)}, median diffusion coefficient {WithLimits(UnitScale.Diffusion, fit.DiffusionCoefficient)}, background {WithLimits(UnitScale.Chloride, fit.Background)}. Method: {fit.Method}.{Convergence()}{(isInReport ? HtmlFragment.Of($" <a href=\"#{SourceAnchor.DeckFit}\">Basis of the deck's estimates</a>") : HtmlFragment.Empty)}</p>"
        );

    private HtmlFragment Convergence() =>
        fit?.Convergence is { } c
            ? HtmlFragment.Of(
                $" Chains: split R-hat {NumberNotation.Fixed(c.SplitRhat, 3)} (1 when converged), effective sample size {NumberNotation.Fixed(c.EffectiveSampleSize, 0)}, the worst over all parameters."
            )
            : HtmlFragment.Empty;

    private static HtmlFragment WithLimits(UnitScale scale, Estimate estimate) =>
        estimate is { Lower95: { } low, Upper95: { } high }
            ? HtmlFragment.Of(
                $"{QuantityHtml.Value(scale, estimate.Value)} (95 %: {QuantityHtml.Value(scale, low)} to {QuantityHtml.Value(scale, high)})"
            )
            : HtmlFragment.Of(
                $"{QuantityHtml.Value(scale, estimate.Value)} (no limits: {estimate.MissingReason ?? (estimate.IsFixed ? "given" : "not estimated")})"
            );

    private static ReportCell Status(FitStatus status)
    {
        var word = status switch
        {
            FitStatus.Fitted => "fitted",
            FitStatus.Limited => "limited",
            _ => "refused",
        };
        return ReportCell.Fragment(
            HtmlFragment.Of($"<span class=\"dl-status dl-status-{word}\">{word}</span>"),
            word
        );
    }

    private static ReportCell Estimated(UnitScale scale, Estimate? estimate)
    {
        if (estimate is null)
        {
            return ReportCell.Missing("no estimate");
        }

        var cell = ReportCell.Quantity(scale, estimate.Value);
        var mark =
            estimate.IsFixed ? " fixed"
            : estimate.IsAtBound ? " at bound"
            : estimate.StandardError is null ? ""
            : null;
        return mark is null
            ? cell with
            {
                Html = HtmlFragment.Of(
                    $"{cell.Html} <span class=\"dl-se\">± {ReportCell.Quantity(scale, estimate.StandardError, 2).Html}</span>"
                ),
                Text =
                    $"{cell.Text} ± {scale.Number(estimate.StandardError!.Value, UnitSystem.Si, 2)}",
            }
            : cell with
            {
                Html = HtmlFragment.Of($"{cell.Html}<span class=\"dl-se\">{mark}</span>"),
                Text = cell.Text + mark,
            };
    }

    private static ReportCell Remarks(ProfileFit fit)
    {
        var remarks = new List<string>();
        var inUs = new List<string>();
        if (fit.Profile.OnCrack)
        {
            Add("Taken on a crack.");
        }

        if (!string.IsNullOrEmpty(fit.Reason))
        {
            remarks.Add(fit.Reason);
            inUs.Add(MessageHtml.Reason(fit.Reason, fit.Flags, MessageUnits.UsCustomary));
        }

        foreach (var e in fit.Excluded)
        {
            Add(
                e.Row > 0
                    ? FormattableString.Invariant($"Line {e.Row} left out: {e.Reason}")
                    : "Slice left out: " + e.Reason
            );
        }

        var nonDetects = fit.Profile.Slices.Count(s => s.IsNonDetect);
        if (nonDetects > 0)
        {
            Add(
                FormattableString.Invariant(
                    $"{nonDetects} below the detection limit, fitted as such."
                )
            );
        }

        return ReportCell.Fragment(
            HtmlFragment.Join(
                remarks.Zip(
                    inUs,
                    (si, us) => HtmlFragment.Of($"<div>{QuantityHtml.Both(si, us)}</div>")
                )
            ),
            string.Join(" ", remarks)
        );

        void Add(string remark)
        {
            remarks.Add(remark);
            inUs.Add(remark);
        }
    }

    private static ImmutableArray<ReportCell> Survey(
        string name,
        string basis,
        int count,
        string present,
        string absent
    ) =>
        [
            ReportCell.Words(name),
            ReportCell.Whole(count) with
            {
                Basis = basis,
            },
            ReportCell.Words(count > 0 ? present : absent),
        ];

    private IEnumerable<(string About, Diagnostic Diagnostic)> All() =>
        (deck?.Diagnostics ?? [])
            .Select(d => (d.File ?? "deck folder", d))
            .Concat(cores.SelectMany(c => c.Flags.Select(f => ("core " + c.Profile.Core, f))))
            .Concat((fit?.Flags ?? []).Select(f => ("deck fit", f)))
            .Concat(
                (projectionFlags.IsDefault ? [] : projectionFlags).Select(f => ("projection", f))
            );

    // One row a kind: what it means stands once, beside all that it was found on; what matters more comes first.
    private HtmlFragment Flags()
    {
        var kinds = All()
            .GroupBy(f => f.Diagnostic.Code)
            .OrderByDescending(g => g.First().Diagnostic.Severity)
            .ThenBy(g => g.Key, StringComparer.Ordinal)
            .ToList();
        return kinds.Count == 0
            ? HtmlFragment.Empty
            : (
                new ReportTable(
                    "Warnings and notes",
                    [new("Code"), new("What was found"), new("What it means")],
                    [.. kinds.Select(Kind)]
                )
                {
                    StacksOnPhones = true,
                }
            ).ToHtml("dl-wide");
    }

    private static ImmutableArray<ReportCell> Kind(
        IGrouping<string, (string About, Diagnostic Diagnostic)> found
    )
    {
        var entry = DiagnosticCatalogue.Find(found.Key);
        return
        [
            ReportCell.Words(found.Key),
            ReportCell.Fragment(
                HtmlFragment.Of($"<b>{Sentence(entry?.Title)}</b>{Found([.. found])}"),
                string.Join(" ", found.Select(f => $"{f.About}: {f.Diagnostic.Text}"))
            ),
            ReportCell.Words(entry?.Explanation),
        ];
    }

    // The same remark on many cores is a wall: their names stand, the words unfold.
    private static HtmlFragment Found(ImmutableArray<(string About, Diagnostic Diagnostic)> found)
    {
        var all = HtmlFragment.Join(
            found.Select(f =>
                HtmlFragment.Of(
                    $"<div class=\"dl-found\"><i>{f.About}</i>: {MessageHtml.Of(f.Diagnostic)}</div>"
                )
            )
        );
        return found.Length <= MostShown
            ? all
            : HtmlFragment.Of(
                $"<details class=\"dl-more\"><summary>{found.Length} times: {string.Join(", ", found.Select(f => f.About).Distinct(StringComparer.Ordinal))}</summary>{all}</details>"
            );
    }

    private static string Sentence(string? title) =>
        title is { Length: > 0 } ? char.ToUpperInvariant(title[0]) + title[1..] + "." : "";
}
