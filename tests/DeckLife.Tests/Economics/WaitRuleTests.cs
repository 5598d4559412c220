using DeckLife.Decisions;
using DeckLife.Numerics.Sampling;
using Xunit;

namespace DeckLife.Tests.Economics;

public class WaitRuleTests
{
    [Fact]
    public void Find_SmallProblem_IsTheBestOfAllRules()
    {
        for (ulong seed = 1; seed <= 20; seed++)
        {
            var stream = new RandomStream(seed, "wait rules");
            var problem = new WaitRule.Problem(
                Values(stream, 30),
                [Values(stream, 30), Values(stream, 30)],
                [.. Values(stream, 30).Select(v => (int)(v * 6))],
                [.. Values(stream, 30).Select(v => v > 0.2)],
                0.01
            );
            var draws = Enumerable.Range(0, 30).ToArray();
            var every =
                from later in new[] { -1, 0, 1 }
                from trigger in Enumerable.Range(0, 8)
                from up in new[] { true, false }
                select new WaitRule(later, trigger, up);

            var found = WaitRule.Find(problem, draws);

            Assert.Equal(
                every.Min(r => draws.Sum(k => r.Cost(problem, k))),
                draws.Sum(k => found.Cost(problem, k)),
                1e-12
            );
        }
    }

    [Fact]
    public void FindBlind_SmallProblem_IsTheBestOfThoseThatDoTheSameWhateverIsFound()
    {
        // Means over the draws: nothing 6, first 5, second 5.5; seeing which draw it is would give 4.
        var problem = new WaitRule.Problem(
            [4, 8],
            [
                [6, 4],
                [7, 4],
            ],
            [0, 3],
            [true, true],
            0
        );

        var blind = WaitRule.FindBlind(problem, [0, 1]);

        Assert.Equal(new WaitRule(0, 0, true), blind);
        Assert.Equal(10, blind.Cost(problem, 0) + blind.Cost(problem, 1));
        Assert.Equal(new WaitRule(0, 3, true), WaitRule.Find(problem, [0, 1]));
    }

    [Fact]
    public void Cost_EndBeforeTheSurvey_NoSurveyAndNoAction()
    {
        var problem = new WaitRule.Problem(
            [5],
            [
                [1],
            ],
            [3],
            [false],
            2
        );

        Assert.Equal(5, new WaitRule(0, 0, true).Cost(problem, 0));
    }

    private static double[] Values(RandomStream stream, int count)
    {
        var values = new double[count];
        stream.FillUniform(values);
        return values;
    }
}
