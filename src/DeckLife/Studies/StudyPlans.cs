using System.Collections.Immutable;
using DeckLife.Numerics.Sensitivity;

namespace DeckLife.Studies;

/// <summary>Makes the numerical plan of a study's method.</summary>
internal static class StudyPlans
{
    /// <summary>The plan; absent for methods that are not made of blocks of points.</summary>
    public static EvaluationPlan? Make(StudyDefinition study, StudyMethod method)
    {
        var variables = study.ToRandomVector();
        var drawn = study.Drawn;
        return method switch
        {
            SobolMethod m => new SobolPlan(
                variables,
                m.Points,
                study.Seed,
                m.Source,
                m.Groups.IsEmpty ? null : Places(drawn, m.Groups)
            ),
            ShapleyMethod m => new ShapleyPlan(variables, m.Points, study.Seed, m.Source),
            MorrisMethod m => new MorrisPlan(
                variables,
                m.Design,
                m.Repetitions,
                study.Seed,
                m.Levels,
                m.EdgeProbability
            ),
            SwingMethod m => new SwingPlan(variables, m.Low, m.High),
            _ => null,
        };
    }

    private static List<int[]> Places(
        ImmutableArray<StudyInput> drawn,
        ImmutableArray<ImmutableArray<StudyVariable>> groups
    )
    {
        var named = groups
            .Select(g => g.Select(v => drawn.ToList().FindIndex(i => i.Variable == v)).ToArray())
            .ToList();
        // What no group names stands by itself.
        named.AddRange(
            Enumerable
                .Range(0, drawn.Length)
                .Where(i => !named.Any(g => g.Contains(i)))
                .Select(i => new[] { i })
                .ToList()
        );
        return named;
    }
}
