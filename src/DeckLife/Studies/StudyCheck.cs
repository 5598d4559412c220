using DeckLife.Diagnostics;

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
        var given = study.Inputs.Select(i => i.Variable).ToHashSet();
        List<SectionVariable> needed =
        [
            SectionVariable.Cover,
            SectionVariable.SurfaceChloride,
            SectionVariable.DiffusionCoefficient,
        ];
        if (study.Outputs.Any(o => o.Kind != StudyOutputKind.ContentAtBar))
        {
            needed.Add(SectionVariable.ChlorideThreshold);
        }

        if (study.Section.Ageing != SectionAgeing.None)
        {
            needed.Add(SectionVariable.AgeingExponent);
        }

        if (study.Section.OverlayAgeYr is not null)
        {
            needed.AddRange([
                SectionVariable.RemovalDepth,
                SectionVariable.OverlayThickness,
                SectionVariable.OverlayDiffusionCoefficient,
            ]);
        }

        foreach (var missing in needed.Where(v => !given.Contains(v)))
        {
            found.Add(
                DiagnosticCatalogue.StudyInputMissing.With(SectionVariableInfo.Of(missing).Name)
            );
        }

        foreach (var twice in study.Inputs.GroupBy(i => i.Variable).Where(g => g.Count() > 1))
        {
            found.Add(
                DiagnosticCatalogue.StudyInputTwice.With(SectionVariableInfo.Of(twice.Key).Name)
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
                var input in study.Inputs.Where(i => i.Variable == SectionVariable.ConvectionDepth)
            )
            {
                found.Add(DiagnosticCatalogue.StudyNotWithOverlay.With(input.Name));
            }
        }

        if (found.Exists(d => d.Severity == Severity.Error))
        {
            return found;
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

    private static void CheckRange(StudyInput input, List<Diagnostic> found)
    {
        var info = SectionVariableInfo.Of(input.Variable);
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
                            info.Least,
                            info.Largest,
                            info.Unit,
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
                    input.Fixed,
                    info.Least,
                    info.Largest,
                    info.Unit
                )
            );
        }
    }
}
