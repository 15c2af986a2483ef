namespace MicRegister.Metrology.Tests;

/// <summary>Comparisons that print what they compared and by how much it missed.</summary>
internal static class AssertClose
{
    public static void Relative(double expected, double actual, double tolerance) => Assert.True(
        Math.Abs(actual - expected) <= tolerance * Math.Abs(expected),
        $"expected {expected:R}, got {actual:R}: off by {Math.Abs(actual - expected) / Math.Abs(expected):E2} relative, allowed {tolerance:E1}");

    public static void Absolute(double expected, double actual, double tolerance) => Assert.True(
        Math.Abs(actual - expected) <= tolerance,
        $"expected {expected:R}, got {actual:R}: off by {Math.Abs(actual - expected):E2}, allowed {tolerance:E1}");
}
