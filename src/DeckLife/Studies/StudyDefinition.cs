using System.Collections.Immutable;
using DeckLife.Numerics.Distributions;

namespace DeckLife.Studies;

/// <summary>A study: what is uncertain, what is asked, by which methods.</summary>
public sealed record StudyDefinition
{
    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>What it is about and where its inputs come from.</summary>
    public string Note { get; init; } = "";

    /// <summary>Seed of every random number.</summary>
    public required ulong Seed { get; init; }

    /// <summary>What is fixed about the section.</summary>
    public SectionSettings Section { get; init; } = new();

    /// <summary>The deck and strategy the study is about; absent: it is about a section.</summary>
    public DeckSubject? Deck { get; init; }

    /// <summary>The quantities, each once.</summary>
    public required ImmutableArray<StudyInput> Inputs { get; init; }

    /// <summary>Rank correlations of drawn quantities; those not named are 0.</summary>
    public ImmutableArray<StudyCorrelation> Correlations { get; init; } = [];

    /// <summary>Whether to take the nearest valid matrix where the correlations contradict each other.</summary>
    public bool TakeNearestValidCorrelations { get; init; }

    /// <summary>What is asked.</summary>
    public required ImmutableArray<StudyOutput> Outputs { get; init; }

    /// <summary>The methods.</summary>
    public required ImmutableArray<StudyMethod> Methods { get; init; }

    /// <summary>The drawn quantities, in order.</summary>
    public ImmutableArray<StudyInput> Drawn => [.. Inputs.Where(i => i.Distribution is not null)];

    /// <summary>Whether its deck starts from what a projection has learned from the deck's own surveys.</summary>
    public bool StartsFromSurveys => Inputs.Any(i => i.Variable == StudyVariable.SurveyedState);

    /// <summary>For each variable its place among the drawn quantities; -1: not drawn.</summary>
    internal int[] Places()
    {
        var places = new int[StudyVariableInfo.All.Count];
        Array.Fill(places, -1);
        var drawn = Drawn;
        for (var i = 0; i < drawn.Length; i++)
        {
            places[(int)drawn[i].Variable] = i;
        }

        return places;
    }

    /// <summary>Draws of a piece of work: a deck takes a thousand times as long as a section.</summary>
    internal int DrawsAPiece => Deck is null ? 1 << 16 : 128;

    /// <summary>Draws that are summed up together.</summary>
    internal int DrawsASum => Math.Min(8192, DrawsAPiece);

    /// <summary>Sums of a piece.</summary>
    internal int SumsAPiece => DrawsAPiece / DrawsASum;

    /// <summary>What the study computes.</summary>
    internal IStudyModel ToModel() => Deck is null ? new SectionModel(this) : new DeckModel(this);

    /// <summary>The drawn quantities as a random vector.</summary>
    /// <exception cref="ArgumentException">Correlations that contradict each other, and no repair asked for.</exception>
    public RandomVector ToRandomVector()
    {
        var drawn = Drawn;
        GaussianCopula? copula = null;
        if (!Correlations.IsEmpty)
        {
            var matrix = new double[drawn.Length, drawn.Length];
            for (var i = 0; i < drawn.Length; i++)
            {
                matrix[i, i] = 1;
            }

            foreach (var (first, second, rank) in Correlations)
            {
                var i = Place(drawn, first);
                var j = Place(drawn, second);
                matrix[i, j] = matrix[j, i] = rank;
            }

            copula = GaussianCopula.FromRankCorrelation(matrix, TakeNearestValidCorrelations);
        }

        return new(drawn.Select(i => i.Distribution!), copula);
    }

    private static int Place(ImmutableArray<StudyInput> drawn, StudyVariable variable)
    {
        for (var i = 0; i < drawn.Length; i++)
        {
            if (drawn[i].Variable == variable)
            {
                return i;
            }
        }

        throw new ArgumentException(
            $"A correlation names {StudyVariableInfo.Of(variable).Name}, which is not drawn."
        );
    }
}
