using DeckLife.Diagnostics;
using DeckLife.Fitting;
using DeckLife.Projection;

namespace DeckLife.Studies;

/// <summary>Finds what a study cannot be computed with, and what its reader should know.</summary>
public static class StudyCheck
{
    /// <summary>Checks a study.</summary>
    /// <param name="study">The study.</param>
    /// <returns>Errors first; with an error the study must not be run.</returns>
    public static IReadOnlyList<Diagnostic> Find(StudyDefinition study)
    {
        ArgumentNullException.ThrowIfNull(study);
        var found = new List<Diagnostic>();
        var isDeck = study.Deck is not null;
        foreach (var missing in isDeck ? [] : Missing(study))
        {
            found.Add(
                DiagnosticCatalogue.StudyInputMissing.With(StudyVariableInfo.Of(missing).Name)
            );
        }

        var foreign = study
            .Inputs.Where(i => StudyVariableInfo.Of(i.Variable).IsOfDeck != isDeck)
            .Select(i => $"The input {i.Name}")
            .Concat(
                study.Outputs.Where(o => o.IsOfDeck != isDeck).Select(o => $"The output {o.Key}")
            );
        foreach (var name in foreign)
        {
            found.Add(
                DiagnosticCatalogue.StudyOfOtherSubject.With(
                    name,
                    isDeck ? "section" : "deck",
                    isDeck ? "deck" : "section"
                )
            );
        }

        found.AddRange(AgainstSurveyedState(study));
        if (
            study.Methods.Any(m => m is ReliabilityMethod)
            && !study.Outputs.IsEmpty
            && !study.Outputs.Any(o => o.HasMargin)
        )
        {
            found.Add(
                DiagnosticCatalogue.StudyMethodImpossible.With(
                    "The method reliability needs an output \"initiatedBy\", or for a deck \"yearOfLimit\", or a share with \"reaching\": it is about an event."
                )
            );
        }

        foreach (
            var output in study.Outputs.Where(o =>
                o.Level is { } level && !(o.IsShare && level is >= StudyOutput.LeastLevel and <= 1)
            )
        )
        {
            found.Add(
                DiagnosticCatalogue.StudyMethodImpossible.With(
                    $"The output {output.Name}: only a damaged or initiated share can be asked to reach a level, from 1e-6 to 1."
                )
            );
        }

        foreach (var twice in study.Inputs.GroupBy(i => i.Variable).Where(g => g.Count() > 1))
        {
            found.Add(
                DiagnosticCatalogue.StudyInputTwice.With(StudyVariableInfo.Of(twice.Key).Name)
            );
        }

        foreach (var input in study.Inputs)
        {
            CheckRange(input, found);
        }

        if (study.Drawn.IsEmpty)
        {
            found.Add(DiagnosticCatalogue.StudyNothingDrawn.With());
        }

        if (study.Outputs.IsEmpty || study.Methods.IsEmpty)
        {
            found.Add(DiagnosticCatalogue.StudyNothingAsked.With());
        }

        if (study.Section.OverlayAgeYr is not null)
        {
            foreach (
                var input in study.Inputs.Where(i => i.Variable == StudyVariable.ConvectionDepth)
            )
            {
                found.Add(DiagnosticCatalogue.StudyNotWithOverlay.With(input.Name));
            }
        }

        if (found.Exists(d => d.Severity == Severity.Error))
        {
            return found;
        }

        if (study.Deck is { } subject)
        {
            CheckDeck(study, subject, found);
            if (found.Exists(d => d.Severity == Severity.Error))
            {
                return found;
            }
        }

        try
        {
            if (study.ToRandomVector().Copula is { WasRepaired: true })
            {
                found.Add(DiagnosticCatalogue.StudyCorrelationsRepaired.With());
            }

            foreach (var method in study.Methods)
            {
                _ = StudyPlans.Make(study, method);
            }
        }
        catch (ArgumentException exception)
        {
            found.Add(
                DiagnosticCatalogue.StudyMethodImpossible.With(
                    exception.Message.Split(" (Parameter")[0]
                )
            );
        }

        return found;
    }

    // Fits the deck, the first time.
    private static void CheckDeck(
        StudyDefinition study,
        DeckSubject subject,
        List<Diagnostic> found
    )
    {
        foreach (
            var output in study.Outputs.Where(o =>
                !(o.AgeYr >= 0 && o.AgeYr <= subject.Deck.Horizon.Years)
            )
        )
        {
            found.Add(
                DiagnosticCatalogue.StudyDeckUnusable.With(
                    FormattableString.Invariant(
                        $"The output {output.Name} lies beyond the horizon of {subject.Deck.Name}, {subject.Deck.Horizon.Years:0.##} yr."
                    )
                )
            );
        }

        if (
            subject.Deck.Prices is null
            && study.Outputs.Any(o => o.Kind == StudyOutputKind.PresentValue)
        )
        {
            found.Add(
                DiagnosticCatalogue.StudyDeckUnusable.With(
                    $"{subject.Deck.Name} has no prices: a present value needs them."
                )
            );
        }

        if (found.Exists(d => d.Severity == Severity.Error))
        {
            return;
        }

        try
        {
            _ = subject.Basis;
        }
        catch (ProjectionRefusedException refused)
        {
            found.AddRange(refused.Problems);
            return;
        }
        catch (DeckFitRefusedException refused)
        {
            found.Add(refused.Diagnostic);
            return;
        }

        var held = string.Join(
            ", ",
            StudyVariableInfo
                .Given.Where(v =>
                    v.IsOfDeck
                    // The draws carry the overlay too; what is named of it replaces theirs.
                    && !(
                        study.StartsFromSurveys
                        && (v.IsOfState || v.Variable == StudyVariable.OverlayDiffusionFactor)
                    )
                    && !study.Inputs.Any(i => i.Variable == v.Variable)
                )
                .Select(v => v.Name)
        );
        if (!study.StartsFromSurveys)
        {
            found.Add(DiagnosticCatalogue.StudyDeckMiddle.With(subject.Deck.Name, held));
            return;
        }

        var states = subject.Basis.States;
        found.Add(
            DiagnosticCatalogue.StudyDeckSurveyed.With(
                subject.Deck.Name,
                states.Count,
                states.Learned.IsLearned
                    ? FormattableString.Invariant(
                        $"weighed by its surveys (an effective {states.Learned.EffectiveSampleSize:F0} of {states.Learned.Weighed})"
                    )
                    : "of cores and cover alone, as no sounding or half-cell survey was learned from",
                held.Length == 0 ? "nothing" : held
            )
        );
        found.AddRange(Hindcasts.Flags(states.Learned));
    }

    private static IEnumerable<Diagnostic> AgainstSurveyedState(StudyDefinition study)
    {
        if (!study.StartsFromSurveys)
        {
            yield break;
        }

        foreach (var input in study.Inputs)
        {
            if (StudyVariableInfo.Of(input.Variable).IsOfState)
            {
                yield return DiagnosticCatalogue.StudyInputOfState.With(input.Name);
            }
        }

        foreach (
            var method in study.Methods.Where(m =>
                m is not (MonteCarloMethod or SobolMethod or ShapleyMethod)
            )
        )
        {
            yield return DiagnosticCatalogue.StudyMethodImpossible.With(
                $"The method {method.Name} moves one input along a line, and surveyedState is a set of whole draws: use monteCarlo, sobol or shapley."
            );
        }

        if (
            study.Correlations.Any(c =>
                c.First == StudyVariable.SurveyedState || c.Second == StudyVariable.SurveyedState
            )
        )
        {
            yield return DiagnosticCatalogue.StudyMethodImpossible.With(
                "surveyedState is a set of whole draws and has no rank to correlate: remove the correlation."
            );
        }
    }

    private static IEnumerable<StudyVariable> Missing(StudyDefinition study)
    {
        List<StudyVariable> needed =
        [
            StudyVariable.Cover,
            StudyVariable.SurfaceChloride,
            StudyVariable.DiffusionCoefficient,
        ];
        if (study.Outputs.Any(o => o.Kind != StudyOutputKind.ContentAtBar))
        {
            needed.Add(StudyVariable.ChlorideThreshold);
        }

        if (study.Section.Ageing != SectionAgeing.None)
        {
            needed.Add(StudyVariable.AgeingExponent);
        }

        if (study.Section.OverlayAgeYr is not null)
        {
            needed.AddRange([
                StudyVariable.RemovalDepth,
                StudyVariable.OverlayThickness,
                StudyVariable.OverlayDiffusionCoefficient,
            ]);
        }

        return needed.Where(v => !study.Inputs.Any(i => i.Variable == v));
    }

    private static void CheckRange(StudyInput input, List<Diagnostic> found)
    {
        var info = StudyVariableInfo.Of(input.Variable);
        if (input.Distribution is { } law)
        {
            // Draws outside the allowed range would need clipping, which changes the distribution behind the reader's back.
            if (law.Lower < info.Least || law.Upper > info.Largest)
            {
                var outside = law.LowerTail(info.Least) + law.UpperTail(info.Largest);
                if (outside > 1e-12)
                {
                    found.Add(
                        DiagnosticCatalogue.StudyDistributionOutside.With(
                            info.Name,
                            law.Description,
                            Range(info),
                            outside
                        )
                    );
                }
            }
        }
        else if (!(input.Fixed >= info.Least && input.Fixed <= info.Largest))
        {
            found.Add(
                DiagnosticCatalogue.StudyValueOutside.With(
                    info.Name,
                    new MessageTemplate("{0:G6}" + Unit(info), input.Fixed),
                    Range(info)
                )
            );
        }
    }

    // The unit stands in the format, so that a reader gets both in the units of the study.
    private static MessageTemplate Range(StudyVariableInfo info) =>
        new("{0:G6} to {1:G6}" + Unit(info), info.Least, info.Largest);

    private static string Unit(StudyVariableInfo info) => info.Unit == "1" ? "" : " " + info.Unit;
}
