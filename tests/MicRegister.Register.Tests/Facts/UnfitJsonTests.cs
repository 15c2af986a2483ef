using System.Text;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Tests.Facts;

/// <summary>Why a body cannot be used is said by its parts, never by names of the program.</summary>
public sealed class UnfitJsonTests
{
    [Theory]
    [InlineData("""{"place":3}""", "the part 'place' is of another sort")]
    [InlineData("{}", "it lacks 'place'")]
    [InlineData("""{"place":"x","room":1}""", "the part 'room' is not known there")]
    [InlineData("""{"place":null}""", "null")]
    public void A_body_that_does_not_fit_names_its_part(string body, string says)
    {
        var text = $$"""
            {"at":"2026-05-04","author":"P1","body":{{body}},"client":"c","counter":0,"id":"01JD8XK3ZZ0000000000000001","kind":"device-moved","subjects":["device:A1"],"version":1}
            """;

        var why = Assert.IsType<UnreadBody>(FactText.ReadCanonical(Encoding.UTF8.GetBytes(text.Trim())).Body).Why;

        Assert.Contains(says, why, StringComparison.Ordinal);
        Assert.DoesNotContain("MicRegister", why, StringComparison.Ordinal);
    }
}
