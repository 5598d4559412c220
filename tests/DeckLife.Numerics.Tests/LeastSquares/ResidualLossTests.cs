using DeckLife.Numerics.LeastSquares;
using Xunit;

namespace DeckLife.Numerics.Tests.LeastSquares;

public class ResidualLossTests
{
    // scipy.special.log_ndtr of SciPy 1.10.1 (reference-checks/peers/fitting/censored_profile.txt). Above 2.5 the tail itself must keep its digits.
    [Theory]
    [InlineData(-40, -804.6084420137539, 1e-14)]
    [InlineData(-30, -454.32124395634327, 1e-14)]
    [InlineData(-25.5, -329.28414898717955, 1e-10)]
    [InlineData(-24.5, -304.24427074096377, 1e-13)]
    [InlineData(-10, -53.23128515051248, 1e-14)]
    [InlineData(-3, -6.60772622151035, 1e-14)]
    [InlineData(0, -0.6931471805599453, 1e-15)]
    [InlineData(2, -0.023012909328963486, 1e-13)]
    [InlineData(6, -9.865876455243719e-10, 1e-9)]
    [InlineData(9, -1.1285884059538324e-19, 1e-13)]
    public void Value_CensoredNormal_LogOfTheDistribution(double u, double log, double relative)
    {
        var found = -ResidualLoss.Value(u, true, null, out _, out _);

        Assert.True(Math.Abs(found - log) <= relative * Math.Abs(log), $"{found:R}");
    }

    // scipy.stats.t(4).logcdf of SciPy 1.10.1.
    [Theory]
    [InlineData(-5, -5.587275735616685)]
    [InlineData(0, -0.6931471805599453)]
    [InlineData(2, -0.059811855318935174)]
    public void Value_CensoredStudent_LogOfTheDistribution(double u, double log) =>
        Assert.Equal(log, -ResidualLoss.Value(u, true, 4, out _, out _), 1e-12);

    [Theory]
    [InlineData(-26, null)]
    [InlineData(-3, null)]
    [InlineData(1.5, null)]
    [InlineData(-3, 4.0)]
    [InlineData(1.5, 4.0)]
    public void Value_Derivatives_AreThoseOfTheValue(double u, double? nu)
    {
        const double h = 1e-5;
        foreach (var censored in new[] { true, false })
        {
            var above = ResidualLoss.Value(u + h, censored, nu, out _, out _);
            var below = ResidualLoss.Value(u - h, censored, nu, out _, out _);
            ResidualLoss.Value(u, censored, nu, out var first, out _);

            // Central differences: error of the order h² f''' and 1e-16 |f| / h.
            Assert.Equal((above - below) / (2 * h), first, 1e-6 * Math.Max(1, Math.Abs(first)));
        }
    }
}
