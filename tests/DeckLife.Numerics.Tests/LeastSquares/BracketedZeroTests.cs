using DeckLife.Numerics.LeastSquares;
using Xunit;

namespace DeckLife.Numerics.Tests.LeastSquares;

public class BracketedZeroTests
{
    [Fact]
    public void Find_CosineBelowTwo_HalfPi() =>
        Assert.Equal(Math.PI / 2, BracketedZero.Find(Math.Cos, 0, 2, 1, Math.Cos(2), 1e-15), 1e-15);

    [Fact]
    public void Find_TripleZero_StillBracketed()
    {
        static double Cube(double x) => Math.Pow(x - 0.3, 3);

        Assert.Equal(0.3, BracketedZero.Find(Cube, -1, 1, Cube(-1), Cube(1), 1e-12), 1e-6);
    }

    [Fact]
    public void Find_Step_TheJump() =>
        Assert.Equal(0.123, BracketedZero.Find(x => x < 0.123 ? -1 : 1, 0, 1, -1, 1, 1e-12), 1e-11);

    [Fact]
    public void Find_NoSignChange_TheBetterEnd() =>
        Assert.Equal(2, BracketedZero.Find(x => x, 2, 5, 2, 5, 1e-12));
}
