using System.Globalization;
using System.Text;
using DeckLife.Fitting;
using DeckLife.Reporting.Notation;

namespace DeckLife.Reporting.Fitting;

public static partial class FitTable
{
    private const int FewestOfAPopulation = 3;

    private static void WriteDeck(
        StringBuilder text,
        DeckFit? deck,
        string? deckReason,
        FitUnits units
    )
    {
        if (deck is null)
        {
            if (deckReason is not null)
            {
                text.Append("deck: not pooled. ").Append(deckReason).Append('\n');
            }

            return;
        }

        WriteDeck(text, "deck", deck, units);
        if (deck.CrackCores is { } cracks)
        {
            text.Append('\n');
            WriteDeck(text, "cores on cracks", cracks, units);
        }

        if (deckReason is not null)
        {
            text.Append("  ").Append(deckReason).Append('\n');
        }
    }

    private static void WriteDeck(StringBuilder text, string name, DeckFit deck, FitUnits units)
    {
        text.Append(
            CultureInfo.InvariantCulture,
            $"{name}: {Name(deck.Status)}, {deck.Cores} {(deck.Cores == 1 ? "core" : "cores")}, {deck.Method}\n"
        );
        if (deck.Reason is { } reason)
        {
            text.Append("  because: ")
                .Append(MessageHtml.Reason(reason, deck.Flags, units.Messages))
                .Append('\n');
        }

        // One or two cores tell of themselves alone; what the model says of the places between is its prior.
        if (deck.Cores >= FewestOfAPopulation)
        {
            WritePopulation(text, deck, units);
        }

        WriteCoreEstimates(text, deck, units);
        foreach (var flag in deck.Flags.Where(f => f.Text != deck.Reason))
        {
            text.Append(CultureInfo.InvariantCulture, $"  {flag.Code} {flag.In(units.Messages)}\n");
        }
    }

    private static void WritePopulation(StringBuilder text, DeckFit deck, FitUnits units)
    {
        text.Append(
            CultureInfo.InvariantCulture,
            $"  medians over the deck, D at {deck.ReferenceExposureYears:0.###} yr of exposure:\n"
        );
        Populations(text, deck.SurfaceChloride, deck.DiffusionCoefficient, units);
        Line(text, "C0", deck.Background, units.Content, units.ContentFactor, "kg/m3");
        text.Append(
            CultureInfo.InvariantCulture,
            $"  between cores: s.d. of ln Cs {Bare(deck.SdLnSurfaceChloride)}, of ln D {Bare(deck.SdLnDiffusionCoefficient)}, correlation {Bare(deck.Correlation)}\n"
        );
        WriteLaboratory(text, deck, units);
        if (deck.AgeingExponent is { } ageing)
        {
            text.Append(
                CultureInfo.InvariantCulture,
                $"  ageing exponent of the instantaneous D {(ageing.IsFixed ? $"{ageing.Value:G3}, {ageing.MissingReason ?? "held"}" : Bare(ageing))}\n"
            );
        }

        if (deck.Convergence is { } convergence)
        {
            text.Append(
                CultureInfo.InvariantCulture,
                $"  chains: split R-hat {convergence.SplitRhat:F3}, effective sample size {convergence.EffectiveSampleSize:F0}\n"
            );
        }

        WriteReml(text, deck.Reml, units);
    }

    private static void WriteLaboratory(StringBuilder text, DeckFit deck, FitUnits units)
    {
        var (sd, factor) = (deck.LabErrorSd, units.ContentFactor);
        text.Append(
            CultureInfo.InvariantCulture,
            $"  laboratory s.d. {sd.Value / factor:G3} {units.Content}"
        );
        if (sd is { Lower95: { } low, Upper95: { } high })
        {
            text.Append(
                CultureInfo.InvariantCulture,
                $" ({low / factor:G3} to {high / factor:G3})"
            );
        }

        if (factor != 1)
        {
            text.Append(CultureInfo.InvariantCulture, $" = {sd.Value:G3} kg/m3");
        }

        if (deck.RelativeLabError is { } share)
        {
            text.Append(CultureInfo.InvariantCulture, $"; as a share of the content {Bare(share)}");
        }

        text.Append('\n');
    }

    private static void WriteReml(StringBuilder text, DeckRemlFit? reml, FitUnits units)
    {
        if (reml is null)
        {
            return;
        }

        text.Append(
            CultureInfo.InvariantCulture,
            $"  beside it, restricted maximum likelihood in two stages, t limits on {reml.DegreesOfFreedom} degrees of freedom:\n"
        );
        Populations(text, reml.SurfaceChloride, reml.DiffusionCoefficient, units);
        text.Append(
            CultureInfo.InvariantCulture,
            $"  between cores: s.d. of ln Cs {reml.SdLnSurfaceChloride:G3}, of ln D {reml.SdLnDiffusionCoefficient:G3}, correlation {reml.Correlation:G3}{(reml.IsSingular ? "; at the edge of what a covariance can be, so it says little" : string.Empty)}\n"
        );
    }

    // The cores as the deck sees them: a core whose own slices say little is drawn towards the others.
    private static void WriteCoreEstimates(StringBuilder text, DeckFit deck, FitUnits units)
    {
        if (deck.CoreEstimates.Length == 0)
        {
            return;
        }

        text.Append(
            CultureInfo.InvariantCulture,
            $"  cores within the deck, Cs in {units.Content} and D in {units.Diffusion} at the core's own age:\n"
        );
        var width = deck.CoreEstimates.Max(c => c.Core.Length);
        foreach (var core in deck.CoreEstimates)
        {
            text.Append("    ")
                .Append(core.Core.PadRight(width))
                .Append("  Cs ")
                .Append(Scaled(core.SurfaceChloride, units.ContentFactor).PadRight(26))
                .Append("  D ")
                .Append(Scaled(core.DiffusionCoefficient, units.DiffusionFactor))
                .Append(core.IsTargeted ? "  (taken where trouble was seen)\n" : "\n");
        }
    }

    private static void Populations(
        StringBuilder text,
        Estimate surface,
        Estimate diffusion,
        FitUnits units
    )
    {
        Line(text, "Cs", surface, units.Content, units.ContentFactor, "kg/m3");
        Line(text, "D ", diffusion, units.Diffusion, units.DiffusionFactor, "mm2/yr");
    }

    private static string Scaled(Estimate estimate, double factor) =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"{estimate.Value / factor:G4} ({estimate.Lower95 / factor:G4} to {estimate.Upper95 / factor:G4})"
        );
}
