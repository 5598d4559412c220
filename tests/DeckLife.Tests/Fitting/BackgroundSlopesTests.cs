using DeckLife.Fitting;
using Xunit;

namespace DeckLife.Tests.Fitting;

public class BackgroundSlopesTests
{
    // (ln Cs, ln D) in a straight line with the background: the slopes are those of the lines.
    [Fact]
    public void Take_StatesOnALine_ItsSlopesThenAFreshWindow()
    {
        var slopes = new BackgroundSlopes(2);
        var (surface, diffusion) = (new double[2], new double[2]);

        Learn(slopes, 40, -0.5, 0.25);
        slopes.Take(surface, diffusion);
        Assert.Equal([-0.5, -1], surface, Near);
        Assert.Equal([0.25, 0.5], diffusion, Near);

        Learn(slopes, 40, 2, -3);
        slopes.Take(surface, diffusion);
        Assert.Equal([2.0, 4], surface, Near);
        Assert.Equal([-3.0, -6], diffusion, Near);
    }

    // Twenty states or a background that stands still teach nothing: the slopes stay.
    [Theory]
    [InlineData(20, false)]
    [InlineData(21, true)]
    public void Take_FewStates_SlopesStay(int states, bool learned)
    {
        var slopes = new BackgroundSlopes(2);
        var (surface, diffusion) = (new double[] { 7, 7 }, new double[] { 7, 7 });

        Learn(slopes, states, -0.5, 0.25);
        slopes.Take(surface, diffusion);

        Assert.Equal(learned ? -0.5 : 7, surface[0], 1e-9);
        Assert.Equal(learned ? 0.25 : 7, diffusion[0], 1e-9);
    }

    [Fact]
    public void Take_BackgroundHeld_SlopesStay()
    {
        var slopes = new BackgroundSlopes(1);
        var (surface, diffusion) = (new double[] { 7 }, new double[] { 7 });
        for (var i = 0; i < 40; i++)
        {
            var state = new DeckChainState(1, 2) { Background = 0.3 };
            state.LnSurface[0] = i;
            slopes.Learn(state);
        }

        slopes.Take(surface, diffusion);

        Assert.Equal((7, 7), (surface[0], diffusion[0]));
    }

    private static void Learn(BackgroundSlopes slopes, int states, double surface, double diffusion)
    {
        for (var i = 0; i < states; i++)
        {
            var background = 0.2 + (0.01 * i);
            var state = new DeckChainState(2, 2) { Background = background };
            for (var j = 0; j < 2; j++)
            {
                state.LnSurface[j] = 2 + ((j + 1) * surface * background);
                state.LnDiffusion[j] = 3 + ((j + 1) * diffusion * background);
            }

            slopes.Learn(state);
        }
    }

    private static bool Near(double one, double other) => Math.Abs(one - other) < 1e-9;
}
