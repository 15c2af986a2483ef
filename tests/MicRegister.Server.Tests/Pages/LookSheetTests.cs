using System.Text.RegularExpressions;
using MicRegister.Server.Pages.Shell;
using Microsoft.AspNetCore.Http;

namespace MicRegister.Server.Tests.Pages;

/// <summary>Both palettes stand in one sheet, which browsers keep until it changes; text can be read on its ground.</summary>
public sealed class LookSheetTests
{
    [Fact]
    public void Light_and_dark_stand_in_it_and_sizes_but_once()
    {
        var parts = LookSheet.Text.Split("@media");
        Assert.Equal([246, 244, 238], Colour(parts[0], "background")); // #f6f4ee
        Assert.Equal([25, 24, 21], Colour(parts[1], "background")); // #191815
        Assert.Contains("--mud-drawer-width-left:", parts[0], StringComparison.Ordinal);
        Assert.DoesNotContain("--mud-drawer-width-left:", parts[1], StringComparison.Ordinal);
        Assert.Equal(LookSheet.Text.Count(c => c == '{'), LookSheet.Text.Count(c => c == '}'));
        Assert.Matches("^look\\.css\\?v=[0-9a-f]{12}$", LookSheet.Address);
    }

    [Theory]
    [InlineData("look=dark", "dark")]
    [InlineData("look=light", "light")]
    [InlineData("look=\"><script>", null)]
    [InlineData("", null)]
    public void A_person_says_which_by_a_cookie_of_two_words(string cookie, string? expected)
    {
        var context = new DefaultHttpContext();
        context.Request.Headers.Cookie = cookie;
        Assert.Equal(expected, LookSheet.Chosen(context.Request));
    }

    // W3C, Web Content Accessibility Guidelines 2.2, 1.4.3 and 1.4.11 (4.5:1 for text, 3:1 for borders of fields); formula of relative
    // luminance as defined there.
    [Theory]
    [InlineData("text-primary", 7)]
    [InlineData("text-secondary", 4.5)]
    [InlineData("success", 4.5)]
    [InlineData("warning", 4.5)]
    [InlineData("error", 4.5)]
    [InlineData("info", 4.5)]
    [InlineData("primary", 4.5)]
    [InlineData("lines-inputs", 3)]
    public void Colours_can_be_told_from_paper_and_ground_light_and_dark(string name, double least)
    {
        var parts = LookSheet.Text.Split("@media");
        foreach (var sheet in new[] { parts[0], parts[1] })
        {
            foreach (var ground in new[] { "background", "surface" })
            {
                var ratio = Contrast(Colour(sheet, name), Colour(sheet, ground));
                Assert.True(ratio >= least, $"{name} on {ground}: {ratio:0.00}");
            }
        }
    }

    private static double[] Colour(string sheet, string name)
    {
        var match = Regex.Match(sheet, $@"--mud-palette-{name}:\s*(?:rgba?\((\d+),\s*(\d+),\s*(\d+)|#(..)(..)(..))",
            RegexOptions.IgnoreCase);
        Assert.True(match.Success, name);
        return match.Groups[1].Success
            ? [.. Enumerable.Range(1, 3).Select(i =>
                double.Parse(match.Groups[i].Value, System.Globalization.CultureInfo.InvariantCulture))]
            : [.. Enumerable.Range(4, 3).Select(i => (double)Convert.ToInt32(match.Groups[i].Value, 16))];
    }

    private static double Contrast(double[] a, double[] b)
    {
        var (x, y) = (Luminance(a), Luminance(b));
        return (Math.Max(x, y) + 0.05) / (Math.Min(x, y) + 0.05);
    }

    private static double Luminance(double[] rgb)
    {
        var linear = rgb.Select(c => c / 255).Select(c => c <= 0.04045 ? c / 12.92 : Math.Pow((c + 0.055) / 1.055, 2.4)).ToArray();
        return (0.2126 * linear[0]) + (0.7152 * linear[1]) + (0.0722 * linear[2]);
    }
}
