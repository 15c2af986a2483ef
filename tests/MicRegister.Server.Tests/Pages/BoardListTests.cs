using Bunit;
using MicRegister.Register.Deployment;
using MicRegister.Server.Pages.Board;

namespace MicRegister.Server.Tests.Pages;

/// <summary>The board tells when each chain is to be checked again, where the profile asks for checks by the clock.</summary>
public sealed class BoardListTests : PageContext
{
    // The page's clock shows 08:00 UTC; at the time itself a check is still in time.
    [Theory]
    [InlineData("2026-08-03T08:00:00.000Z", "next check due at 08-03 08:00 UTC", false)]
    [InlineData("2026-08-03T07:59:59.999Z", "next check was due at 08-03 07:59 UTC", true)]
    [InlineData(null, null, false)]
    public void Each_chain_shows_when_its_next_check_is_due(string? due, string? says, bool isOverdue)
    {
        long? ms = due is null ? null : DateTimeOffset.Parse(due, System.Globalization.CultureInfo.InvariantCulture).ToUnixTimeMilliseconds();
        var standing = new StationStanding("S1", StationState.Checked, null, null, [], null, null) { NextCheckMs = ms };

        var list = Render<BoardList>(p => p.Add(b => b.Stations, [standing]));

        var cell = list.FindAll("tbody td")[4];
        if (says is null) Assert.DoesNotContain("due", cell.TextContent, StringComparison.Ordinal);
        else Assert.Contains(says, cell.TextContent, StringComparison.Ordinal);
        Assert.Equal(isOverdue ? 1 : 0, cell.QuerySelectorAll("span.risks").Length);
    }
}
