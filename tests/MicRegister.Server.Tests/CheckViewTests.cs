using MicRegister.Documents.Tests;
using MicRegister.Register;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Server.Api;

namespace MicRegister.Server.Tests;

/// <summary>A check tells of itself what its profile asks for and nobody read.</summary>
public sealed class CheckViewTests
{
    // 14 CFR 36, A36.3.9.7 (2021 edition): pressure and temperature of the test day; other profiles ask for neither.
    [Theory]
    [InlineData("transport-1200mm", true)]
    [InlineData("engineering-practice", false)]
    public void A_check_without_the_air_of_the_day_says_so_where_the_profile_asks_for_it(string profile, bool says)
    {
        var register = FactList.RegisterOf([.. LargeArray.Facts(1, 1)]);
        var record = CheckBook.OfCampaign(register, LargeArray.C)[0] is var k ? k with { Check = k.Check with { Air = null } } : k;
        var asked = register.Profile(profile);

        var view = CheckView.Of(register, CheckJudge.Judge(asked, record, [record]), null, asked);

        const string said = "No static pressure and no temperature of the day was read, which the profile asks for the calibrator's level.";
        Assert.Equal(says, view.Caution?.Contains(said, StringComparison.Ordinal) == true);
    }
}
