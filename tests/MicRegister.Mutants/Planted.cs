namespace MicRegister.Mutants;

/// <summary>Source whose changes have a verdict that is known beforehand: they show that the runner tells the verdicts apart.</summary>
internal static class Planted
{
    private const string Source = """
        namespace MicRegister.Mutants;

        public static class PlantedCode
        {
            public static int Sum(int a, int b) => a + b;

            public static int Same(int a) => a * One;

            public static long Down(long a)
            {
                for (; a > 0; a = a - One) ;
                return a;
            }

            public static int Never(int a, int b) => b - a;

            private static int One => System.Math.Sign(7);
        }
        """;

    private const string Test = """
        namespace MicRegister.Mutants;

        public sealed class PlantedTests
        {
            [Fact]
            public void What_is_planted_does_what_it_says()
            {
                Assert.Equal(5, PlantedCode.Sum(2, 3));
                Assert.Equal(7, PlantedCode.Same(7));
                Assert.Equal(0, PlantedCode.Down(1));
            }
        }
        """;

    private const string FileName = "PlantedCode.cs";

    public static bool IsIn(string file) => Path.GetFileName(file) == FileName;

    public static void Into(string tree, Area area)
    {
        File.WriteAllText(Path.Combine(tree, "src", area.Folder, FileName), Source);
        File.WriteAllText(Path.Combine(tree, "tests", area.Tests[0], "PlantedTests.cs"), Test);
    }

    /// <summary>What the runner has to say of a planted change.</summary>
    public static Verdict Expected(string change) => change switch
    {
        // Times one and by one are the same, and so are the signs of seven and eight.
        "a * One → a / One" or "7 → 7 + 1" => Verdict.Survived,
        "b - a → b + a" => Verdict.Unreached,
        "a - One → a + One" => Verdict.TimedOut, // counts up for ever, near enough
        _ => Verdict.Killed,
    };
}
